// Who may import whom, from the ground up. Run by `npm test`.
const floors = {
  validate: [],
  units: [],
  figures: ['units'],
  prescription: ['validate', 'units', 'figures'],
  plan: ['validate', 'units', 'figures', 'prescription'],
  session: ['validate', 'units', 'figures', 'prescription'],
  summary: ['validate', 'units', 'figures', 'prescription', 'session'],
  progress: ['validate', 'units', 'figures', 'prescription', 'plan', 'session', 'summary'],
  recorder: ['validate', 'units', 'figures', 'prescription', 'plan', 'session', 'summary', 'progress'],
  logbook: ['validate', 'units', 'figures', 'prescription', 'plan', 'session', 'summary'],
  'ui/widgets': ['units', 'figures', 'prescription', 'plan', 'session', 'summary', 'progress', 'recorder'],
  'ui/screens': ['units', 'figures', 'prescription', 'plan', 'session', 'summary', 'progress', 'recorder', 'ui/widgets'],
  'ui/terminal': ['validate', 'units', 'ui/widgets'],
  app: ['validate', 'units', 'figures', 'prescription', 'plan', 'session', 'summary', 'progress', 'recorder', 'logbook', 'ui'],
}
const values = '^src/(validate|units|figures|prescription|plan|session|summary|progress|recorder)/'

/** Where zod schemas stand. */
const schemas =
  '^src/(units/model|prescription/model|plan/morningModel|session/model|summary/model|logbook/model)[.]ts$'

module.exports = {
  forbidden: [
    ...Object.entries(floors).map(([room, below]) => ({
      name: `floor-${room.replace('/', '-')}`,
      comment:
        below.length === 0
          ? `src/${room} imports nothing of ours: move what it needs into it.`
          : `src/${room} may import only src/{${below.join(',')}}: move the shared part down to one of them, or pass it in.`,
      severity: 'error',
      from: { path: `^src/${room}/` },
      to: { path: '^src/', pathNot: [`^src/${room}/`, ...below.map((name) => `^src/${name}/`)] },
    })),
    {
      name: 'values-know-no-machine',
      comment: 'The floors of values take time, ids and text as arguments: no node: module there.',
      severity: 'error',
      from: { path: values },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'values-know-no-screen',
      comment: 'The floors of values draw nothing: no React and no Ink there.',
      severity: 'error',
      from: { path: [values, '^src/logbook/'] },
      to: { path: 'node_modules/(react|ink|ink-text-input)/', dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'screens-know-no-machine',
      comment: 'Widgets and screens get files, keys and the clock from above: no node: module there.',
      severity: 'error',
      from: { path: '^src/ui/(widgets|screens)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'schemas-are-compiled',
      comment:
        'zod takes longer to load than a command takes to run: only the files of schemas import it, and of them only types are imported. What runs is made of them (src/setup/shapes.ts).',
      severity: 'error',
      from: { path: '^src/', pathNot: schemas },
      to: { path: ['node_modules/zod/', schemas], dependencyTypesNot: ['type-only'] },
    },
    {
      name: 'no-cycle',
      comment: 'Two files that import each other are one file, or a third is missing; imports of types count, lazy ones do not.',
      severity: 'error',
      from: { path: '^src/' },
      to: { circular: true, viaOnly: { dependencyTypesNot: ['dynamic-import'] } },
    },
    {
      name: 'no-unresolved',
      comment: 'The imported file or package does not exist: correct the path or install the package.',
      severity: 'error',
      from: { path: '^src/' },
      to: { couldNotResolve: true, pathNot: 'generated/' },
    },
    {
      name: 'not-from-tests',
      comment: 'The program imports nothing from tests/.',
      severity: 'error',
      from: { path: '^src/' },
      to: { path: '^tests/' },
    },
  ],
  options: {
    tsPreCompilationDeps: true,
    doNotFollow: { path: 'node_modules' },
    exclude: { path: '^(src/\\w+/generated|src/setup)/' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.js', '.cjs', '.mjs', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
}
