import type { SyncAdapter } from 'lowdb'
import { writeDurably } from './durableWrite.ts'
import { readTextFile } from './textFile.ts'

/** lowdb's synchronous adapter over a durable write. A file that cannot be read is never written over:
 * `write` refuses until a `read` went well, except where there is no file.
 * @typeParam T what the file holds */
export class DurableFile<T> implements SyncAdapter<T> {
  readonly path: string
  readonly #parse: (text: string) => T
  readonly #print: (data: T) => string
  #isKnown = false

  /** @param parse throws where the text is not what it should be */
  constructor(path: string, parse: (text: string) => T, print: (data: T) => string) {
    this.path = path
    this.#parse = parse
    this.#print = print
  }

  /** Null where there is no file. Throws what `parse` throws, and the system's errors. */
  read(): T | null {
    const text = readTextFile(this.path)
    const data = text === null ? null : this.#parse(text)
    this.#isKnown = true
    return data
  }

  write(data: T): void {
    if (!this.#isKnown) this.read()
    writeDurably(this.path, this.#print(data), true)
  }
}
