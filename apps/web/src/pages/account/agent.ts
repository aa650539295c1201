/** The first that fits: most browsers say that they are others too. */
const browsers: readonly (readonly [RegExp, string])[] = [
  [/\bEdgA?\//, 'Edge'],
  [/\bOPR\//, 'Opera'],
  [/\bSamsungBrowser\//, 'Samsung Internet'],
  [/\b(Firefox|FxiOS)\//, 'Firefox'],
  [/\b(Chrome|CriOS|HeadlessChrome)\//, 'Chrome'],
  [/\bVersion\/.*\bSafari\//, 'Safari'],
];
const systems: readonly (readonly [RegExp, string])[] = [
  [/\biPhone\b/, 'iPhone'],
  [/\biPad\b/, 'iPad'],
  [/\bAndroid\b/, 'Android'],
  [/\bWindows\b/, 'Windows'],
  [/\bMac OS X\b/, 'macOS'],
  [/\bCrOS\b/, 'ChromeOS'],
  [/\bLinux\b/, 'Linux'],
];

const found = (of: readonly (readonly [RegExp, string])[], agent: string): string | undefined =>
  of.find(([sign]) => sign.test(agent))?.[1];

/** What a browser says of itself, in two words; null: it says something else. */
export function deviceOf(agent: string): { browser: string; system: string } | null {
  const [browser, system] = [found(browsers, agent), found(systems, agent)];
  return browser === undefined || system === undefined ? null : { browser, system };
}
