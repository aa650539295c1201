import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdir, mkdtemp, readFile, rename, rm, writeFile } from 'node:fs/promises';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { type Browser, chromium } from 'playwright-core';
import { z } from 'zod';

const root = fileURLToPath(new URL('../../', import.meta.url));
const unpack = fileURLToPath(new URL('unpack-chromium.ts', import.meta.url));

interface Program {
  readonly executablePath: string;
  readonly env?: Record<string, string>;
}

/**
 * Starts the browser of the npm package (Linux on x64), or the one that `CHROMIUM` names. It has no
 * GPU, as on any test machine, and no network but this machine.
 */
export async function startChromium(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({
    ...(await program()),
    args: [
      '--no-sandbox',
      '--disable-gpu',
      // The same widths of letters on every machine.
      '--font-render-hinting=none',
      // `plain.test` is this machine as another one sees it: browsers trust no http from there.
      '--host-resolver-rules=MAP plain.test 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1',
      ...more,
    ],
  });
}

async function program(): Promise<Program> {
  const { CHROMIUM: given } = process.env;
  if (given !== undefined && given !== '') return { executablePath: given };
  if (process.platform === 'linux' && process.arch === 'x64') return unpacked();
  const usual = '/usr/bin/chromium';
  if (existsSync(usual)) return { executablePath: usual };
  throw new Error(
    `The tests of the screens need a Chromium, and the npm package has none for ${process.platform} ` +
      `on ${process.arch}: name one by CHROMIUM=/path/to/chromium.`,
  );
}

/** Unpacks it once a clone; what is being written by another process is never taken for whole. */
async function unpacked(): Promise<Program> {
  const about = await readFile(join(root, 'node_modules/@sparticuz/chromium/package.json'), 'utf8');
  const { version } = z.object({ version: z.string() }).parse(JSON.parse(about));
  const folder = join(root, '.curewright', `chromium-${version}`);
  if (!existsSync(folder)) await unpackTo(folder);
  const { PATH = '', HOME = folder, LD_LIBRARY_PATH: libraries } = process.env;
  return {
    executablePath: join(folder, 'chromium'),
    env: {
      PATH,
      HOME,
      LD_LIBRARY_PATH: [join(folder, 'al2023', 'lib'), ...(libraries ? [libraries] : [])].join(
        delimiter,
      ),
      FONTCONFIG_FILE: join(folder, 'fonts.conf'),
    },
  };
}

async function unpackTo(folder: string): Promise<void> {
  await mkdir(join(root, '.curewright'), { recursive: true });
  const apart = await mkdtemp(`${folder}-`);
  try {
    await promisify(execFile)(process.execPath, [unpack], {
      env: { ...process.env, TMPDIR: apart },
    });
    await writeFile(join(apart, 'fonts.conf'), fontsFile(folder));
    // Fails where another process was first, whose folder is as good.
    await rename(apart, folder).catch((error: unknown) => {
      if (!existsSync(folder)) throw error;
    });
  } finally {
    await rm(apart, { recursive: true, force: true });
  }
}

/** Fonts of the machine, and those of the package for one that has none. */
const fontsFile = (folder: string): string => `<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "fonts.dtd">
<fontconfig>
  <include ignore_missing="yes">/etc/fonts/fonts.conf</include>
  <dir>${join(folder, 'fonts')}</dir>
  <cachedir>${join(folder, 'fonts-cache')}</cachedir>
</fontconfig>
`;
