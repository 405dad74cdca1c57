import type { DigestDay } from './digestDay.ts'
import { isFinished, readSection, startOfLine } from './digestLine.ts'
import { dayOfSections, type SectionName, type Sections, sectionNames, sectionsOf } from './digestSections.ts'
import type { DigestEntry, SessionEntry } from './model.ts'

/** A session as its line in the digest has it: nothing of the line is read before it is asked for. */
export class EntryOfLine implements DigestEntry {
  readonly id: string
  readonly date: string
  readonly path: string
  readonly #line: string
  readonly #madeAnew: (entry: SessionEntry) => DigestDay | null
  #read: Partial<Sections> = {}

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
    for (const name of sectionNames) this.#section(name)
    return dayOfSections(this.#read as Sections)
  }

  #section<Name extends SectionName>(name: Name): Sections[Name] {
    const known = this.#read[name]
    if (known !== undefined) return known
    const read = readSection(this.#line, name)
    if (read !== null) {
      this.#read[name] = read
      return read
    }
    const day = this.#madeAnew(this)
    if (day === null) throw new Error(`the file ${this.path} was damaged while it was read`)
    this.#read = sectionsOf(day)
    return this.#read[name] as Sections[Name]
  }
}
