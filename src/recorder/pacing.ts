import type { SetStep } from '../prescription/step.ts'

/** Seconds a repetition takes: the sum of its written tempo (X, as fast as it goes, is 1 s), else the setting. */
export function secondsPerRepOf(step: SetStep, usual: number): number {
  if (!step.tempo) return usual
  const counts = [...step.tempo]
    .filter((each) => /[0-9X]/i.test(each))
    .map((each) => (/x/i.test(each) ? 1 : Number(each)))
  const sum = counts.reduce((total, each) => total + each, 0)
  return sum > 0 ? sum : usual
}
