import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { pathToFileURL } from 'node:url';
import type { SchemaEngine } from '@prisma/schema-engine-wasm';
import { Pool } from 'pg';
import { Connection } from '../connection.ts';
import { migrationAdapter } from './adapter.ts';

type Exports = Readonly<Record<string, unknown>>;

type EngineModule = Pick<typeof import('@prisma/schema-engine-wasm'), 'SchemaEngine'> & {
  __wbg_set_wasm(exports: Exports): void;
};

/** What is used of the global that TypeScript declares for browsers only. */
interface WasmHost {
  instantiate(
    bytes: Uint8Array,
    imports: Readonly<Record<string, unknown>>,
  ): Promise<{ readonly instance: { readonly exports: Exports } }>;
}
const { WebAssembly: host } = globalThis as typeof globalThis & { WebAssembly: WasmHost };

let loaded: Promise<EngineModule> | undefined;

/**
 * The package's own entry imports a `.wasm` file as a module, which Node 24 does only behind a
 * flag: instantiate it by hand instead. It keeps its state in the module, so once a process.
 */
async function load(): Promise<EngineModule> {
  const glue = createRequire(import.meta.url).resolve(
    '@prisma/schema-engine-wasm/schema_engine_bg',
  );
  const module = (await import(pathToFileURL(glue).href)) as EngineModule;
  const bytes = await readFile(glue.replace(/\.js$/, '.wasm'));
  const { instance } = await host.instantiate(bytes, { './schema_engine_bg.js': { ...module } });
  module.__wbg_set_wasm(instance.exports);
  (instance.exports['__wbindgen_start'] as () => void)();
  return module;
}

/** Runs `use` with a schema engine on the database at `url`, and frees it after. */
export async function withEngine<T>(
  url: string,
  use: (engine: SchemaEngine) => Promise<T>,
): Promise<T> {
  loaded ??= load();
  const { SchemaEngine: Engine } = await loaded;
  const pool = new Pool({ Client: Connection, connectionString: url, max: 2 });
  const silent = (): void => undefined;
  try {
    const engine = await Engine.new({ datamodels: undefined }, silent, migrationAdapter(pool));
    try {
      return await use(engine);
    } finally {
      engine.free();
    }
  } finally {
    await pool.end();
  }
}
