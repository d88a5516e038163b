import { useDesk } from '../state/desk.ts';
import { footingOf, today } from './footing.ts';
import { PrintButton, type Sheets } from './Press.tsx';

/** Prints the report on the buildings shown. What it is made of is loaded with the first one asked for. */
export function ReportButton() {
  const desk = useDesk();
  const make = async (): Promise<Sheets> => {
    const [{ Report }, { askReport }] = await Promise.all([
      import('./Report.tsx'),
      import('./report-data.ts'),
    ]);
    const data = await askReport(desk);
    return {
      footing: footingOf('Rainledger: portfolio report', data.origin, today()),
      fileName: 'rainledger-portfolio-report',
      body: () => <Report data={data} />,
    };
  };
  return <PrintButton make={make}>Report …</PrintButton>;
}
