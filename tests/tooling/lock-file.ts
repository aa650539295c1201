/**
 * package-lock.json is what npm makes of package.json (otherwise `npm ci` refuses a fresh clone),
 * holds every platform's variant of the native packages, and records no download address.
 */
import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';

interface Entry {
  readonly dependencies?: Record<string, string>;
  readonly devDependencies?: Record<string, string>;
  readonly optionalDependencies?: Record<string, string>;
  readonly resolved?: string;
}

const read = (file: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8'));

const manifest = read('package.json') as Entry;
const { packages } = read('package-lock.json') as {
  packages: Record<string, Entry> & { readonly '': Entry };
};

const faults: string[] = [];
for (const kind of ['dependencies', 'devDependencies'] as const) {
  if (!isDeepStrictEqual(packages[''][kind], manifest[kind])) {
    faults.push(`${kind} differ from package.json: run "npm install --package-lock-only"`);
  }
}
const names = new Set(Object.keys(packages).map((path) => path.replace(/^.*node_modules\//, '')));
for (const [path, entry] of Object.entries(packages)) {
  if (entry.resolved !== undefined) faults.push(`${path} records an address: drop "resolved"`);
  for (const name of Object.keys(entry.optionalDependencies ?? {})) {
    if (!names.has(name))
      faults.push(`${path} lacks ${name}: pin a version that has all platforms`);
  }
}
for (const line of faults) console.error(`package-lock.json: ${line}`);
process.exitCode = faults.length > 0 ? 1 : 0;
