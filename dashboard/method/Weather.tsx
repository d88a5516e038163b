import { createResource, lazy, Show, Suspense } from 'solid-js';
import { useDesk } from '../state/desk.ts';

const Rose = lazy(async () => ({ default: (await import('../weather/Rose.tsx')).Rose }));

/** The weather record in use, where there is one. */
export function Weather() {
  const { session } = useDesk();
  const [found] = createResource(
    () => session.opened()?.version,
    () => session.analyst.weather(),
  );
  return (
    <Suspense>
      <Show when={found()}>{(record) => <Rose found={record()} />}</Show>
    </Suspense>
  );
}
