import type { SetAsked } from './asked.ts'
import { type Count, takeCount } from './entryCount.ts'
import { type Doubt, type Effort, takeEffort } from './entryEffort.ts'
import { loadOf, type TypedLoad, takeLoad } from './entryLoad.ts'
import { doneOf, prescribedDone } from './entrySetDone.ts'
import { isUsualCount, questionCount } from './entrySetDoubts.ts'
import { type EntryText, NotTaken } from './entryText.ts'
import { Cursor, rewritten } from './entryTokens.ts'
import type { LiftedLoad, SetResult } from './result.ts'

/* A set as it is typed: how many, at what load, with what effort. */

interface Typed {
  count: Count | null
  load: TypedLoad | null
  failed: boolean
  effort: Effort
}

/** @throws NotTaken when it cannot be taken as it stands */
export function readSet(text: EntryText, asked: SetAsked, doubts: Doubt[]): SetResult {
  const { body } = text
  const { count, load, failed, effort } = takeSet(new Cursor(body), asked, doubts)
  if (count === null && failed) throw new NotTaken('type how many there were before the one that failed: 4!')
  const done = count === null ? prescribedDone(asked) : doneOf(count, load, asked, body, doubts)
  const before =
    count === null ? null : { start: count.start, value: count.value, isUsual: isUsualCount(count, asked) }
  const lifted = load === null ? shownLoad(asked) : loadOf(load, asked, body, before, doubts)
  if (count !== null) questionCount(count, load, lifted, asked, body, doubts)
  return { ...done, load: lifted, rpe: effort.rpe, failed, note: text.note, pain: text.pain }
}

function takeSet(cursor: Cursor, asked: SetAsked, doubts: Doubt[]): Typed {
  const effort: Effort = { rpe: null, heartRate: null, heartRateMax: null }
  const typed: Typed = { count: null, load: null, failed: false, effort }
  for (let token = cursor.peek(); token !== null; token = cursor.peek()) {
    if (takeEffort(cursor, effort, doubts, true) || cursor.takeIf(',')) continue
    if (cursor.takeIf('!')) {
      if (typed.failed) throw new NotTaken('one ! is enough: 4! says that the next repetition failed')
      typed.failed = true
      continue
    }
    const load = takeLoad(cursor, asked)
    if (load !== null) {
      if (typed.load !== null) throw new NotTaken('the load is there twice; type it once')
      typed.load = load
      continue
    }
    if (token.kind !== 'number' && token.kind !== 'clock') {
      throw new NotTaken(`"${token.text}" is not understood; a set is typed 6, 6 x 100 or 6 x 100 @8`)
    }
    if (typed.count !== null && typed.load === null && token.kind === 'number') {
      const cross = rewritten(cursor.body, { start: token.start, end: token.start }, ' x ')
      throw new NotTaken(`between repetitions and load stands an x; did you mean ${cross}?`, cross)
    }
    if (typed.count !== null)
      throw new NotTaken(`"${token.text}" is one number too many; one set is asked for`)
    typed.count = takeCount(cursor)
  }
  return typed
}

/** The load that an entry without one means.
 * @throws NotTaken when it is not known */
function shownLoad(asked: SetAsked): LiftedLoad | null {
  if (asked.shown === null && asked.loadUnknown) {
    throw new NotTaken('the load is not known yet: type it with the repetitions, such as 6 x 100')
  }
  return asked.shown
}
