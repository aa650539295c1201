/**
 * Runs TypeScript from source: `node --import ./apps/launch/ts-hook.mjs main.ts`.
 *
 * Node strips types by itself, but it leaves decorators alone, and Nest injects by the
 * `design:paramtypes` metadata that only a real transform emits. So the files of the api,
 * where decorators live, go through oxc; everything else stays with Node.
 */
import { readFileSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { fileURLToPath } from 'node:url';
import { transformSync } from 'oxc-transform';

const decorated = new URL('../api/', import.meta.url).href;

registerHooks({
  load(url, context, nextLoad) {
    const [bare] = url.split('?', 1);
    if (!bare.startsWith(decorated) || !bare.endsWith('.ts')) return nextLoad(url, context);
    return { format: 'module', source: transform(fileURLToPath(bare)), shortCircuit: true };
  },
});

/** Mirrors tsconfig.json: verbatim imports, legacy decorators with metadata, native class fields. */
function transform(file) {
  const { code, map, errors } = transformSync(file, readFileSync(file, 'utf8'), {
    lang: 'ts',
    sourceType: 'module',
    target: 'es2024',
    sourcemap: true,
    decorator: { legacy: true, emitDecoratorMetadata: true },
    typescript: { onlyRemoveTypeImports: true },
  });
  if (errors.length > 0) {
    throw new SyntaxError(errors.map((error) => error.codeframe ?? error.message).join('\n'));
  }
  const inline = Buffer.from(JSON.stringify(map)).toString('base64');
  return `${code}\n//# sourceMappingURL=data:application/json;base64,${inline}\n`;
}
