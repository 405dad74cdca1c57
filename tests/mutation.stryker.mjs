/* npm run mutate: which tests notice a change of the source? `PAUSEBOOK_ROOM=figures npm run mutate` takes one room;
 * words after `--` go to Stryker, such as `--mutate src/figures/goal.ts`. */

const room = process.env.PAUSEBOOK_ROOM ?? '{figures,session,summary,progress,logbook,recorder,app,ui}'

export default {
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  // Stryker knows no directory for its copy but one inside the project that vitest looks into.
  tempDirName: 'tests/.mutants',
  vitest: { configFile: 'tests/mutation.vitest.ts', related: false },
  mutate: [`src/${room}/**/*.{ts,tsx}`, '!src/**/*odel.ts', '!src/**/generated/**'],
  // A constant is computed before the tests begin; each of its mutants would need a run of its own.
  ignoreStatic: true,
  // Wording is asserted once, in golden files.
  mutator: { excludedMutations: ['StringLiteral'] },
  reporters: ['clear-text'],
  clearTextReporter: { allowColor: false, logTests: false },
}
