/** Type-aware lint. Run from the root: `npx eslint --config tests/tooling/eslint.config.js FOLDER`. */
import js from '@eslint/js';
import prettier from 'eslint-config-prettier';
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';

const root = new URL('../../', import.meta.url).pathname;

/** What Node cannot strip; it would fail when run, and only on the path that loads the file. */
const notErasable = [
  ['TSEnumDeclaration', 'Node runs this file by stripping types: use a union of literals.'],
  ['TSParameterProperty', 'Node runs this file by stripping types: declare the field.'],
  ['TSModuleDeclaration[kind!="global"]', 'Node runs this file by stripping types: use a module.'],
  ['Decorator', 'Only apps/api is transformed: decorators work nowhere else.'],
];

const avoided = [
  ['ExportAllDeclaration', 'No barrels: import from the file that declares the name.'],
  ['TSAsExpression > TSAsExpression[typeAnnotation.type="TSUnknownKeyword"]', 'Parse or narrow.'],
];

const impure = [
  ['NewExpression[callee.name="Date"][arguments.length=0]', 'Libraries are told the time.'],
  ['MemberExpression[object.name="Date"][property.name="now"]', 'Libraries are told the time.'],
  ['MemberExpression[object.name="Math"][property.name="random"]', 'Take a seeded Random.'],
];

/** What people read stands in apps/web/src/texts, where a translation finds it. */
const unlisted = [
  ['JSXText[value=/[A-Za-z]/]', 'Words of a page stand in texts/.'],
  ['JSXElement > JSXExpressionContainer > Literal[value=/[A-Za-z]/]', 'Words stand in texts/.'],
  [
    'JSXElement > JSXExpressionContainer > TemplateLiteral > TemplateElement[value.raw=/[A-Za-z]{2}/]',
    'Words stand in texts/.',
  ],
  [
    'JSXAttribute[name.name=/^(aria-label|aria-roledescription|label|title|hint|alt|placeholder|caption|cure)$/] > Literal[value=/[A-Za-z]/]',
    'Words of a page stand in texts/.',
  ],
  ['JSXAttribute[name.name=/^(style|srcdoc)$/] > Literal', 'The content policy forbids it.'],
  ['JSXAttribute[name.name="dangerouslySetInnerHTML"]', 'Text from people is shown as text.'],
  ['MemberExpression[property.name=/^(innerHTML|outerHTML)$/]', 'Text is shown as text.'],
  [
    'MemberExpression[property.name=/^toLocale(Date|Time)?String$/]',
    'Use show/: the yard has a zone, the reader units.',
  ],
];

const restricted = (...lists) => [
  'error',
  ...lists.flat().map(([selector, message]) => ({ selector, message })),
];

export default defineConfig(
  {
    ignores: [
      'node_modules/',
      '.curewright/',
      'libs/persistence/generated/',
      'coverage/',
      'apps/web/dist/',
      'apps/web/src/api/schema.ts',
    ],
  },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: root } },
    rules: {
      // A number in a message is read by people; only objects and nullables print badly.
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      // Nest modules are empty classes that carry a decorator.
      '@typescript-eslint/no-extraneous-class': ['error', { allowWithDecorator: true }],
      '@typescript-eslint/consistent-type-exports': 'error',
      '@typescript-eslint/switch-exhaustiveness-check': [
        'error',
        { considerDefaultExhaustiveForUnions: true },
      ],
      // `_` names what an interface makes a function take.
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', destructuredArrayIgnorePattern: '^_' },
      ],
      '@typescript-eslint/no-confusing-void-expression': ['error', { ignoreArrowShorthand: true }],
      eqeqeq: ['error', 'always'],
      'no-console': 'error',
      'max-lines': ['error', 450],
      'no-restricted-syntax': restricted(avoided, notErasable),
    },
  },
  {
    // Run through apps/launch/ts-hook.mjs.
    files: ['apps/api/**/*.ts'],
    rules: { 'no-restricted-syntax': restricted(avoided) },
  },
  {
    files: ['libs/{kernel,calendar,cure,scheduling,planning}/**/*.ts'],
    ignores: ['**/*.test.ts'],
    rules: {
      'no-restricted-syntax': restricted(avoided, notErasable, impure),
      'no-restricted-globals': ['error', 'process', 'performance', 'fetch', 'setTimeout'],
    },
  },
  {
    files: ['apps/web/src/**/*.{ts,tsx}'],
    rules: {
      'no-restricted-syntax': restricted(avoided, notErasable, unlisted),
      // Handlers of elements give nothing back, whatever they call.
      '@typescript-eslint/no-misused-promises': [
        'error',
        { checksVoidReturn: { attributes: false } },
      ],
    },
  },
  {
    // Indices into typed arrays are proved by construction there, and a check costs the hot loop.
    files: ['libs/scheduling/propagation/**/*.ts', 'libs/scheduling/search/**/*.ts'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    // `expect(service.method)` names the method, it does not call it.
    files: ['**/*.test.ts'],
    rules: { '@typescript-eslint/unbound-method': 'off' },
  },
  {
    // What prints on purpose: commands, the launcher, the worker's start, the bench.
    files: ['apps/cli/**', 'apps/launch/**', 'tests/bench/**', 'tests/tooling/**'],
    rules: { 'no-console': 'off' },
  },
  {
    files: ['**/*.{js,mjs,cjs}'],
    languageOptions: {
      globals: Object.fromEntries(
        ['process', 'console', 'module', 'Buffer', 'URL', 'setInterval', 'clearInterval'].map(
          (name) => [name, 'readonly'],
        ),
      ),
    },
  },
  prettier,
);
