import { readdirSync, readFileSync } from 'node:fs'

/* npm run mutate: which tests notice a change of the source? `PAUSEBOOK_ROOM=figures npm run mutate` takes one room;
 * `PAUSEBOOK_SAMPLE=20` tries only 20 places of five lines, drawn at random by `PAUSEBOOK_SEED`; words after `--` go to
 * Stryker, such as `--mutate src/figures/race.ts`. */

const rooms = [
  'units',
  'figures',
  'prescription',
  'plan',
  'session',
  'summary',
  'progress',
  'logbook',
  'recorder',
  'app',
  'ui',
]
const { PAUSEBOOK_ROOM: room, PAUSEBOOK_SAMPLE: sample, PAUSEBOOK_SEED: seed = '1' } = process.env
const asked = room === undefined ? rooms : [room]

/** Every line is as likely as any other; the same seed draws the same ones. */
function drawnPlaces() {
  const lines = asked
    .flatMap((each) => readdirSync(`src/${each}`, { recursive: true }).map((name) => `src/${each}/${name}`))
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => /\.tsx?$/.test(path) && !/odel\.ts$|\/generated\//.test(path))
    .sort()
    .flatMap((path) =>
      readFileSync(path, 'utf8')
        .split('\n')
        .map((_, index) => `${path}:${index + 1}-${index + 5}`),
    )
  let state = Number(seed)
  return Array.from({ length: Number(sample) }, () => {
    // Park and Miller 1988, with the multiplier of their answer of 1993 (from memory).
    state = (state * 48_271) % 2_147_483_647
    return lines[state % lines.length]
  })
}

export default {
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  // Stryker knows no directory for its copy but one inside the project that vitest looks into.
  tempDirName: 'tests/.mutants',
  vitest: { configFile: 'tests/mutation.vitest.ts', related: false },
  mutate:
    sample === undefined
      ? [...asked.map((each) => `src/${each}/**/*.{ts,tsx}`), '!src/**/*odel.ts', '!src/**/generated/**']
      : drawnPlaces(),
  // A constant is computed before the tests begin; each of its mutants would need a run of its own.
  ignoreStatic: true,
  // Wording is asserted once, in golden files.
  mutator: { excludedMutations: ['StringLiteral'] },
  reporters: ['clear-text', 'progress-append-only'],
  clearTextReporter: { allowColor: false, logTests: false },
}
