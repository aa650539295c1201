/**
 * Which folder may import which (dependency-cruiser). Imports go downwards only; what is not
 * named as allowed for a library is forbidden, so that a new folder starts with no rights.
 */
const tests = ['\\.test\\.ts$', '/testing/'];

/** A library's own arrows; its tests follow the same ones, but may use any package. */
const library = (name, allowed, packages = []) => {
  const folders = [name, ...allowed].map((folder) => `^libs/${folder}/`);
  const comment = `libs/${name} may import ${[...allowed, ...packages].join(', ') || 'nothing'}.`;
  return [
    {
      name: `${name}-imports`,
      comment,
      severity: 'error',
      from: { path: `^libs/${name}/`, pathNot: tests },
      to: { pathNot: [...folders, ...packages.map((pack) => `(^|/)node_modules/${pack}/`)] },
    },
    {
      name: `${name}-tests-import`,
      comment,
      severity: 'error',
      from: { path: tests.map((test) => `^libs/${name}/.*${test}`) },
      to: { path: '^(apps|libs|seeds)/', pathNot: folders },
    },
  ];
};

/** A library that touches the outside world: any package, but only these libraries. */
const outer = (name, allowed) => ({
  name: `${name}-imports`,
  comment: `libs/${name} may import any package, and of the libraries ${allowed.join(', ')}.`,
  severity: 'error',
  from: { path: `^libs/${name}/` },
  to: { path: '^(apps|libs|seeds)/', pathNot: [name, ...allowed].map((at) => `^libs/${at}/`) },
});

const app = (name) => ({
  name: `${name}-stands-alone`,
  comment: 'Applications share code through libs, never with each other.',
  severity: 'error',
  from: { path: `^apps/${name}/` },
  to: { path: '^apps/', pathNot: `^apps/${name}/` },
});

module.exports = {
  forbidden: [
    ...library('kernel', []),
    ...library('calendar', ['kernel']),
    ...library('cure', ['kernel']),
    ...library('scheduling', ['kernel'], ['javascript-lp-solver']),
    ...library('planning', ['kernel', 'calendar', 'cure', 'scheduling'], ['zod']),
    ...library('access', ['kernel', 'planning']),
    ...library('live', ['kernel', 'calendar', 'cure', 'scheduling/model', 'planning'], ['zod']),
    // Stored plans carry the compiled problem, so storage knows the engine's model, not the engine.
    outer('persistence', ['kernel', 'planning', 'live', 'scheduling/model']),
    outer('host', ['kernel', 'calendar', 'cure', 'scheduling', 'planning']),
    {
      name: 'linear-programme-in-bounds',
      comment: 'Only the bound from a linear programme needs a solver.',
      severity: 'error',
      from: { path: '^libs/', pathNot: '^libs/scheduling/bounds/' },
      to: { path: '(^|/)node_modules/javascript-lp-solver/' },
    },
    {
      name: 'checker-is-independent',
      comment: 'The checker shares nothing with the engine it judges but the model.',
      severity: 'error',
      from: { path: '^libs/scheduling/checker/', pathNot: tests },
      to: { pathNot: '^libs/scheduling/(checker|model)/' },
    },
    {
      name: 'testing-for-tests',
      comment: 'Helpers for tests (generators of cases) stay out of the product.',
      severity: 'error',
      from: { path: '^(apps|libs|seeds)/', pathNot: tests },
      to: { path: '^libs/.*/testing/' },
    },
    {
      name: 'applications-below-tests',
      comment: 'Product code never needs test code.',
      severity: 'error',
      from: { path: '^(apps|libs|seeds)/', pathNot: tests },
      to: { path: '^tests/' },
    },
    ...['api', 'worker', 'cli', 'launch', 'web'].map(app),
    {
      name: 'screens-know-the-service-only',
      comment: 'The screens know what the service says, and pure libraries that count days.',
      severity: 'error',
      from: { path: '^apps/web/' },
      to: { path: '^(libs|seeds)/', pathNot: ['^libs/(kernel|calendar)/', '^seeds/.*\\.json$'] },
    },
    {
      name: 'pages-stand-alone',
      comment: 'A page is loaded alone: what two of them need lies in a room below.',
      severity: 'error',
      from: { path: '^apps/web/src/pages/([^/]+)/' },
      to: { path: '^apps/web/src/(pages/|routes|main)', pathNot: '^apps/web/src/pages/$1/' },
    },
    {
      name: 'pages-above-rooms',
      comment: 'What pages share knows no page.',
      severity: 'error',
      from: { path: '^apps/web/src/(?!pages/)[^/]+/' },
      to: { path: '^apps/web/src/(pages/|routes|main)' },
    },
    {
      name: 'looks-at-the-bottom',
      comment: 'How things look, what they are called and how they are measured ask no service.',
      severity: 'error',
      from: { path: '^apps/web/src/(looks|texts|show)/' },
      to: {
        path: '^apps/web/src/',
        pathNot: '^apps/web/src/(looks|texts|show|api/(problem|client|schema))',
      },
    },
    {
      name: 'platform-below-features',
      comment: 'The platform knows no trade word.',
      severity: 'error',
      from: { path: '^apps/api/src/platform/' },
      to: { path: '^apps/api/src/features/' },
    },
    {
      name: 'feature-by-its-service',
      comment: 'A feature reaches another only through its service or module.',
      severity: 'error',
      from: { path: '^apps/api/src/features/([^/]+)/' },
      to: {
        path: '^apps/api/src/features/',
        pathNot: ['^apps/api/src/features/$1/', '\\.(service|module)\\.ts$'],
      },
    },
    {
      name: 'no-cycles',
      comment: 'Two files that need each other are one concept, or a third is missing.',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'resolvable',
      comment: 'An import that leads nowhere would escape every other rule.',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(libs/persistence/generated|apps/web/dist)/' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'],
    },
  },
};
