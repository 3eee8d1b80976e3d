import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';

/** Workers are reached by address alone, and one file knows the addresses. */
const workersByAddress = [
  {
    selector: 'Literal[value=/\\.worker\\.ts/]',
    message: 'Only src/calls/workers.ts names a worker; ask it for one.',
  },
  {
    selector: 'NewExpression[callee.name="Worker"]',
    message: 'Only src/calls/workers.ts starts workers.',
  },
];

/** The studio is an object that is made: two of them in one page share nothing. */
const noModuleState = {
  selector: ':matches(Program, ExportNamedDeclaration) > VariableDeclaration[kind="let"]',
  message: 'A studio keeps what changes in its fields, not in a module.',
};

export default tseslint.config(
  // The kernels are AssemblyScript, which its own compiler checks.
  { ignores: ['dist/**', 'test-results/**', 'workers/kernels/**'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  {
    rules: {
      eqeqeq: 'error',
      'no-console': ['error', { allow: ['warn', 'error'] }],
      'no-var': 'error',
      'prefer-const': 'error',
    },
  },
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.strictTypeChecked],
    languageOptions: {
      parserOptions: {
        project: [
          './src/tsconfig.core.json',
          './workers/tsconfig.json',
          './src/tsconfig.page.json',
          './tests/tsconfig.json',
        ],
        tsconfigRootDir: process.cwd(),
      },
    },
    rules: {
      // `onPress={() => setOpen(true)}` and `return refuse(why)` say what they do.
      '@typescript-eslint/no-confusing-void-expression': 'off',
      // `async` alone keeps a promise made: an interface asks for one, and a throw becomes a rejection.
      '@typescript-eslint/require-await': 'off',
      '@typescript-eslint/restrict-template-expressions': ['error', { allowNumber: true }],
      // Stores and props are records of functions, which are taken out of them all the time.
      '@typescript-eslint/unbound-method': 'off',
      // It does not see that a branded number is a number.
      '@typescript-eslint/no-unsafe-unary-minus': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-unused-vars': [
        'error',
        { argsIgnorePattern: '^_', varsIgnorePattern: '^_' },
      ],
    },
  },
  {
    // Loops over typed arrays stay inside bounds that the compiler cannot see.
    files: ['src/core/**', 'src/preview/**', 'workers/**', 'tests/**'],
    rules: { '@typescript-eslint/no-non-null-assertion': 'off' },
  },
  {
    // One idiom for them: `values[i]!`, which keeps the element's type and stands left of `+=` as well.
    files: ['src/core/**/*.ts', 'src/preview/**/*.ts', 'workers/**/*.ts'],
    rules: { '@typescript-eslint/non-nullable-type-assertion-style': 'error' },
  },
  {
    files: ['src/main.tsx', 'src/ui/**/*.{ts,tsx}', 'src/benches/**/*.{ts,tsx}'],
    extends: [reactHooks.configs.flat.recommended],
  },
  {
    files: ['src/**/*.{ts,tsx}'],
    ignores: ['src/calls/workers.ts'],
    rules: { 'no-restricted-syntax': ['error', ...workersByAddress] },
  },
  {
    files: ['src/studio/**/*.ts'],
    rules: { 'no-restricted-syntax': ['error', ...workersByAddress, noModuleState] },
  },
  {
    // What fits on a few screens can be read as one thought.
    files: ['**/*.{ts,tsx,js,mjs,cjs}'],
    rules: { 'max-lines': ['error', 300] },
  },
  {
    files: ['src/**/*.{ts,tsx}', 'workers/**/*.ts', 'demo-scenes/**/*.mjs'],
    rules: { 'max-lines-per-function': ['error', 100] },
  },
  {
    // A declaration file may name a global type and leave its shape to whoever compiles with it.
    files: ['**/*.d.ts'],
    rules: { '@typescript-eslint/no-empty-object-type': ['error', { allowInterfaces: 'always' }] },
  },
  {
    // Tools, benches and generators talk to a terminal.
    files: ['tests/**', 'demo-scenes/**'],
    rules: { 'no-console': 'off' },
  },
);
