import { useDesk } from '../state/desk.ts';
import { footingOf, today } from './footing.ts';
import { PrintButton, type Sheets } from './Press.tsx';

/** Prints the dossier of building `b`. What it is made of is loaded with the first one asked for. */
export function DossierButton(props: { readonly b: number }) {
  const desk = useDesk();
  const make = async (): Promise<Sheets> => {
    const [{ Dossier }, { askDossier }] = await Promise.all([
      import('./Dossier.tsx'),
      import('./dossier-data.ts'),
    ]);
    const data = await askDossier(desk, props.b);
    const { building_id: id, name } = data.detail.row;
    return {
      footing: footingOf(
        `Rainledger: dossier of ${[id, name].filter(Boolean).join(', ')}`,
        data.origin,
        today(),
      ),
      fileName: `rainledger-dossier-${id}`,
      body: () => <Dossier data={data} />,
    };
  };
  return <PrintButton make={make}>Dossier …</PrintButton>;
}
