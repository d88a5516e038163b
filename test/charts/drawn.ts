import { createServer, type ViteDevServer } from 'vite';
import solid from 'vite-plugin-solid';

/** The charts as text, by the page's own components: Solid renders them for a server, where nothing is laid out. */
export interface Drawing {
  readonly draw: (props: object) => string;
  readonly close: () => Promise<void>;
}

export async function openDrawing(): Promise<Drawing> {
  const server: ViteDevServer = await createServer({
    configFile: false,
    root: `${import.meta.dirname}/../..`,
    plugins: [solid({ ssr: true })],
    server: { middlewareMode: true, watch: null, ws: false },
    appType: 'custom',
    logLevel: 'error',
    optimizeDeps: { noDiscovery: true },
    ssr: { noExternal: ['solid-js'] },
  });
  const { Charts } = await server.ssrLoadModule('/dashboard/charts/Charts.tsx');
  const { renderToString, createComponent } = await server.ssrLoadModule('solid-js/web');
  return {
    draw: (props) => normal(renderToString(() => createComponent(Charts, props))),
    close: () => server.close(),
  };
}

/** Hydration keys out, one tag a line: a change then shows as the lines that changed. */
const normal = (html: string): string =>
  html
    .replace(/<!--.*?-->/gs, '')
    .replace(/ data-hk="?[^" >]*"?/g, '')
    .replace(/ +/g, ' ')
    .replace(/></g, '>\n<');
