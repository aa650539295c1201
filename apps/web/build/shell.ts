import { createHash } from 'node:crypto';
import type { Plugin, Rolldown } from 'vite';

type Bundle = Rolldown.OutputBundle;
type Chunk = Rolldown.OutputChunk;

/** Pages that open without a network: the door, and what a builder needs in the yard. */
const pages = ['home', 'sign-in', 'now'];
const worker = 'sw.js';

/**
 * Tells the service worker what it keeps: the first page and all that these pages load. What else
 * there is it keeps when it is first used.
 */
export function shell(): Plugin {
  return {
    name: 'shell',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      handler(_options, bundle) {
        const made = new Map(Object.entries(bundle));
        const chunk = made.get(worker);
        const page = made.get('index.html');
        // It is run as a plain script (Firefox before 147 knows no other): nothing may be imported.
        if (chunk?.type !== 'chunk' || chunk.imports.length > 0 || chunk.exports.length > 0) {
          this.error(`${worker} has to be one script`);
        }
        if (page?.type !== 'asset') this.error('there is no index.html');
        const kept = {
          page: createHash('sha256').update(page.source).digest('hex'),
          first: addresses(firstFiles(bundle)),
          all: addresses(Object.keys(bundle).filter((name) => name.startsWith('assets/'))),
        };
        if (!chunk.code.includes('__SHELL__')) this.error(`${worker} asks for no __SHELL__`);
        chunk.code = chunk.code.replaceAll('__SHELL__', JSON.stringify(kept));
      },
    },
  };
}

const addresses = (names: Iterable<string>): string[] =>
  [...names].map((name) => `/${name}`).sort();

function firstFiles(bundle: Bundle): Set<string> {
  const chunks = Object.values(bundle).filter((one): one is Chunk => one.type === 'chunk');
  const files = new Set<string>();
  const add = (chunk: Chunk | undefined, deep: boolean): void => {
    if (chunk === undefined || files.has(chunk.fileName)) return;
    files.add(chunk.fileName);
    for (const css of chunk.viteMetadata?.importedCss ?? []) files.add(css);
    for (const asset of chunk.viteMetadata?.importedAssets ?? []) files.add(asset);
    const parts = deep ? [...chunk.imports, ...chunk.dynamicImports] : chunk.imports;
    for (const name of parts) add(find(name), deep);
  };
  const find = (name: string): Chunk | undefined =>
    chunks.find(({ fileName }) => fileName === name);
  add(
    chunks.find(({ isEntry, fileName }) => isEntry && fileName !== worker),
    false,
  );
  for (const page of pages) {
    const chunk = chunks.find(({ facadeModuleId }) =>
      facadeModuleId?.endsWith(`/pages/${page}/${page}.tsx`),
    );
    if (chunk === undefined) throw new Error(`no chunk holds the page ${page}`);
    add(chunk, true);
  }
  return files;
}
