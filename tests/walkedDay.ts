import { readFileSync } from 'node:fs'
import type { Session } from '../src/session/model.ts'
import { type Walked, walkThrough } from './day.ts'

/* The Thursday of the samples, recorded with keys from the foam roll to the last meal: the athlete and the times are
 * invented. */

const thursdayText = readFileSync(
  new URL('../sample-sessions/track-and-cluster.txt', import.meta.url),
  'utf8',
)

/** The recorder after the whole day, each part closed. */
export function walkedThursdayRecorder(): Walked {
  const walked = walkThrough(thursdayText)
  prep(walked)
  run(walked)
  lift(walked)
  walked.wait(600).entry('carbs 75 g, protein 20 g, fat 10 g').entry('carbs 85 g, protein 30 g')
  return walked.typed('f').enter().enter()
}

let kept: Session | null = null

/** The session as stored, closed part by part. */
export function walkedThursday(): Session {
  kept ??= walkedThursdayRecorder().session('thursday-walked')
  return kept
}

function prep(walked: Walked): void {
  walked.effort(180).wait(11).effort(60).wait(1)
  walked.typed('f').enter().wait(300)
}

function run(walked: Walked): void {
  walked.effort(690).wait(5).enter().wait(60)
  walked.space()
  for (const split of [249, 248, 247, 246, 245]) walked.wait(split).space()
  // In the jog the five are typed from the watch.
  walked.wait(40).entry('4:08.9 hr 161').entry('4:08.2 hr 165').entry('4:07.2 hr 168').entry('4:06 hr 171')
  walked.entry('4:05 hr 174 rpe 8').wait(200)
  for (const [index, repeat] of [110, 109.5, 109, 108.5, 109, 107].entries()) {
    walked.space().wait(repeat).space()
    if (index < 5) walked.wait(90)
  }
  walked.typed('1:50.1 1:49.4 1:49.2 1:48.5 1:48.9 1:46.8').enter().enter()
  walked.typed('n').entry('with: flats, track, windy').wait(60)
  walked.effort(680).wait(5).enter()
  walked.typed('f').entry('8').enter().wait(720)
}

function lift(walked: Walked): void {
  for (let step = 0; step < 4; step++) walked.effort(25).wait(60)
  for (const effort of ['@7', '@7.5', '@8', '@8', '@8.5']) {
    walked.space().wait(4).space().wait(20).wait(4).space().wait(20).wait(4).space()
    walked.wait(15).entry(`1+1+1 ${effort}`).wait(140)
  }
  for (const [pullUps, dips] of [
    ['6', '8'],
    ['6', '8 @8'],
    ['6 @9', '8'],
    ['5!', '7 @9.5'],
  ] as const) {
    walked.space().wait(20).space().wait(20).wait(25).space()
    walked.entry(pullUps).entry(dips).wait(95)
  }
  for (const hold of ['', '', '40 "cut short"']) walked.effort(45).wait(1).entry(hold).wait(45)
  walked.typed('f').entry('7').enter()
}
