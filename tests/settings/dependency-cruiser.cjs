/**
 * Who may import whom (docs/architecture.md), as a table: folder → the other folders it may import.
 * What the table does not name is forbidden.
 */
const mayImport = {
  'src/core': [],
  'src/contract': ['src/core'],
  'src/job': ['src/core'],
  workers: ['src/core', 'src/contract'],
  'src/preview': ['src/core'],
  'src/state': ['src/core', 'src/contract', 'src/job'],
  'src/jobs': ['src/core', 'src/contract', 'src/job'],
  'src/files': ['src/core', 'src/contract', 'src/job'],
  'src/ui': ['src/core'],
  'src/benches': [
    'src/ui',
    'src/state',
    'src/jobs',
    'src/files',
    'src/preview',
    'src/job',
    'src/core',
    'src/contract',
  ],
};

/** npm packages that are pure functions on plain data, which core may use. */
const purePackages = ['maxrects-packer'];

const inside = (folders) => `^(${folders.join('|')})/`;
const packages = (names) => `(^|/)node_modules/(@types/)?(${names.join('|')})/`;

const table = Object.entries(mayImport).map(([folder, others]) => ({
  name: `from-${folder.replace('/', '-')}`,
  comment: `${folder} may import only itself${others.map((other) => `, ${other}`).join('')}.`,
  severity: 'error',
  from: { path: inside([folder]) },
  to: { path: '^(src|workers|tests|demo-scenes)/', pathNot: inside([folder, ...others]) },
}));

module.exports = {
  forbidden: [
    ...table,
    {
      name: 'no-circles',
      severity: 'error',
      from: {},
      to: { circular: true },
    },
    {
      name: 'workers-by-address-only',
      comment: 'The page names a worker by URL, in one file of src/jobs, and never imports it.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^workers/' },
    },
    {
      name: 'tests-stay-outside',
      severity: 'error',
      from: { path: '^(src|workers)/' },
      to: { path: '^tests/' },
    },
    {
      name: 'benches-apart',
      comment: 'What two benches share belongs in ui, state or job, or on their common desk.',
      severity: 'error',
      from: { path: '^src/benches/([^/]+)/', pathNot: '^src/benches/desk/' },
      to: { path: '^src/benches/([^/]+)/', pathNot: '^src/benches/($1|desk)/' },
    },
    {
      name: 'desk-opens-benches-late',
      comment: 'The desk knows a bench by its index alone, and loads it when it is opened.',
      severity: 'error',
      from: { path: '^src/benches/desk/' },
      to: { path: '^src/benches/', pathNot: '^src/benches/(desk/|[^/]+/index\\.tsx$)' },
    },
    {
      name: 'desk-opens-benches-late',
      severity: 'error',
      from: { path: '^src/benches/desk/' },
      to: {
        path: '^src/benches/[^/]+/index\\.tsx$',
        dependencyTypesNot: ['dynamic-import'],
      },
    },
    {
      name: 'core-is-pure',
      comment: 'No Node module and no package but the pure ones named above.',
      severity: 'error',
      from: { path: '^src/(core|contract)/' },
      to: { dependencyTypesNot: ['local', 'type-only'], pathNot: packages(purePackages) },
    },
    {
      name: 'react-on-the-page-only',
      severity: 'error',
      from: { path: '^(src|workers)/', pathNot: '^src/(ui|benches)/|^src/main\\.tsx$' },
      to: { path: packages(['react', 'react-dom', 'react-aria-components']) },
    },
    {
      name: 'comlink-in-two-places',
      comment: 'src/jobs speaks to workers; workers answer.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/jobs/' },
      to: { path: packages(['comlink']) },
    },
    {
      name: 'no-unresolved',
      severity: 'error',
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: 'shipped-code-uses-dependencies',
      comment: 'What the studio ships is listed under dependencies, not devDependencies.',
      severity: 'error',
      from: { path: '^(src|workers)/' },
      to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'], pathNot: '@types/' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(dist|test-results)/' },
    tsPreCompilationDeps: true,
    enhancedResolveOptions: {
      exportsFields: ['exports'],
      conditionNames: ['import', 'browser', 'default', 'types'],
      mainFields: ['module', 'main', 'types'],
    },
  },
};
