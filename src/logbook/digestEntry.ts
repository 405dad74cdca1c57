import type { DigestDay } from './digestDay.ts'
import { isFinished, readSection, startOfLine } from './digestLine.ts'
import { dayOfSections, type SectionName, type Sections, sectionsOf } from './digestSections.ts'
import type { DigestEntry, SessionEntry } from './model.ts'

/** A session as its line in the digest has it: nothing of the line is read before it is asked for. */
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
  get brief(): Sections['brief'] {
    return this.#section('brief')
  }
  get lifting(): Sections['lifting'] {
    return this.#section('lifting')
  }
  get running(): Sections['running'] {
    return this.#section('running')
  }
  get day(): DigestDay {
    this.#day ??= this.#dayOfLine() ?? this.#dayAnew()
    return this.#day
  }

  /** Not kept: ten thousand of them would cost more to hold than to read again. */
  #section<Name extends SectionName>(name: Name): Sections[Name] {
    if (this.#day === null) {
      const read = readSection(this.#line, name)
      if (read !== null) return read
      this.#day = this.#dayAnew()
    }
    return sectionsOf(this.#day)[name]
  }

  #dayOfLine(): DigestDay | null {
    const [lifting, running, rest] = [
      readSection(this.#line, 'lifting'),
      readSection(this.#line, 'running'),
      readSection(this.#line, 'rest'),
    ]
    return lifting && running && rest && dayOfSections({ lifting, running, rest })
  }

  #dayAnew(): DigestDay {
    const day = this.#madeAnew(this)
    if (day === null) throw new Error(`the file ${this.path} was damaged while it was read`)
    return day
  }
}
