import { exerciseKey } from '../prescription/exercise.ts'
import { changeOfLine, hasLifted, isFinished, readLift, readSection, startOfLine } from './digestLine.ts'
import type { DigestDay, Section } from './digestModel.ts'
import { dayOfSections, sectionsOf } from './digestSections.ts'
import type { DigestEntry, SessionEntry } from './model.ts'

/** A session as its line in the digest has it. Nothing of the line is read before it is asked for, and nothing
 * but the whole day is kept: ten thousand sections would cost more to hold than to read again. */
export class EntryOfLine implements DigestEntry {
  readonly id: string
  readonly date: string
  readonly path: string
  readonly #line: string
  readonly #madeAnew: (entry: SessionEntry) => DigestDay | null
  /** The whole day, once it was asked for or had to be made anew. */
  #day: DigestDay | null = null

  /** @param madeAnew the day from the file itself, where the line is not as this program writes it; null where
   * the file cannot be read */
  constructor(
    { id, date, path }: SessionEntry,
    line: string,
    madeAnew: (entry: SessionEntry) => DigestDay | null,
  ) {
    this.id = id
    this.date = date
    this.path = path
    this.#line = line
    this.#madeAnew = madeAnew
  }

  get finished(): boolean {
    return isFinished(this.#line)
  }
  get started(): number | null {
    return startOfLine(this.#line)
  }
  /** When it was begun, or where that is not known its file was changed last: what a day's sessions are sorted by. */
  get begun(): number {
    return this.started ?? changeOfLine(this.#line)
  }
  get brief(): Section<'brief'> {
    const read = this.#day === null ? readSection(this.#line, 'brief') : null
    return read ?? sectionsOf(this.#dayAnew()).brief
  }
  get running(): Section<'running'> {
    const read = this.#day === null ? readSection(this.#line, 'running') : null
    return read ?? sectionsOf(this.#dayAnew()).running
  }
  get day(): DigestDay {
    this.#day ??= this.#dayOfLine() ?? this.#dayAnew()
    return this.#day
  }

  lifted(key: string): Section<'lift'> | null {
    const read = this.#day === null ? readLift(this.#line, key) : null
    if (read !== null) return read
    if (this.#day === null && !hasLifted(this.#line, key)) return null
    const { lifts } = sectionsOf(this.#dayAnew())
    return lifts.find(({ figures }) => exerciseKey(figures.name) === key) ?? null
  }

  hasLifted(key: string): boolean {
    return hasLifted(this.#line, key)
  }

  #dayOfLine(): DigestDay | null {
    const names = readSection(this.#line, 'brief')?.exercises ?? []
    const lifts = names.map((name) => readLift(this.#line, exerciseKey(name)))
    const [running, rest] = [readSection(this.#line, 'running'), readSection(this.#line, 'rest')]
    const whole = lifts.filter((lift) => lift !== null)
    if (whole.length < lifts.length || running === null || rest === null) return null
    return dayOfSections({ lifts: whole, running, rest })
  }

  #dayAnew(): DigestDay {
    this.#day ??= this.#madeAnew(this)
    if (this.#day === null) throw new Error(`the file ${this.path} was damaged while it was read`)
    return this.#day
  }
}
