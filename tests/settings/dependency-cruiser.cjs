/**
 * Who may import whom (docs/architecture.md), as a table: folder → the other folders it may import.
 * What the table does not name is forbidden.
 */
const mayImport = {
  'src/core': [],
  'src/contract': ['src/core'],
  'src/job': ['src/core'],
  // What a print costs, and which sheets it is cut from, are read from both.
  'src/materials': ['src/core', 'src/job'],
  workers: ['src/core', 'src/contract'],
  'src/preview': ['src/core'],
  'src/state': ['src/core', 'src/contract', 'src/job', 'src/materials'],
  'src/calls': ['src/core', 'src/contract', 'src/job', 'src/materials'],
  'src/files': ['src/core', 'src/contract', 'src/job', 'src/materials'],
  'src/ui': ['src/core'],
  'src/studio': [
    'src/state',
    'src/calls',
    'src/files',
    'src/preview',
    'src/job',
    'src/materials',
    'src/contract',
    'src/core',
  ],
  'src/benches': [
    'src/ui',
    'src/studio',
    'src/state',
    'src/preview',
    'src/job',
    'src/materials',
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
      comment: 'The page names a worker by URL, in one file of src/calls, and never imports it.',
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
      name: 'benches-hold-react-only',
      comment: 'What draws nothing belongs in studio, job, materials, preview or core.',
      severity: 'error',
      from: {},
      to: { path: '^src/benches/.*\\.ts$', pathNot: '/(use-[^/]+|benches|studio)\\.ts$' },
    },
    {
      name: 'desk-opens-benches-late',
      comment: 'The desk knows a bench by its index alone, and loads it when it is opened.',
      severity: 'error',
      from: { path: '^src/benches/desk/' },
      to: {
        path: '^src/benches/',
        pathNot: '^src/benches/(desk/|studio\\.ts$|[^/]+/index\\.tsx$)',
      },
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
      to: { path: packages(['react', 'react-dom']) },
    },
    {
      name: 'comlink-in-two-places',
      comment: 'src/calls speaks to workers; workers answer.',
      severity: 'error',
      from: { path: '^src/', pathNot: '^src/calls/' },
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
