import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { LogbookError } from '../../src/logbook/errors.ts'
import {
  addOwnText,
  addPrescription,
  changeOwnText,
  dayOrMessage,
  foodsIn,
  planIn,
  prescriptionName,
  prescriptionsIn,
  readOwnText,
} from '../../src/logbook/ownTexts.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { failing } from './otherCalls.ts'

/* The days, the plan and the foods that the athlete writes. Names, limits and messages are this program's own. */

describe('a prepared day', () => {
  it('is named by its date and the letters and digits of its title', () => {
    expect(prescriptionName('Track & Legs, 5 x 500 m!', '2026-11-26')).toBe('2026-11-26-track-legs-5-x-500-m')
    expect(prescriptionName('Überläufe 脚', '2026-11-26')).toBe('2026-11-26-überläufe-脚')
    expect(prescriptionName('C:\\autoexec', '2026-11-26')).toBe('2026-11-26-c-autoexec')
    expect(prescriptionName('../..', '2026-11-26')).toBe('2026-11-26-day')
    expect(prescriptionName('a'.repeat(61), '2026-11-26')).toBe(`2026-11-26-${'a'.repeat(60)}`)
    expect(prescriptionName(`${'a'.repeat(59)} b`, '2026-11-26')).toBe(`2026-11-26-${'a'.repeat(59)}`)
  })

  it('never replaces another one, and is listed by name without hidden files and folders', () => {
    const logbook = temporaryFolder()
    const add = () => addPrescription(logbook, 'day', 'Day')
    expect([add(), add(), add()].map((path) => path.split('/').at(-1))).toEqual([
      'day.txt',
      'day-2.txt',
      'day-3.txt',
    ])
    const days = join(logbook, 'prescriptions')
    for (const name of ['b.json', 'a.md', '.c.txt', 'c.txt.bak', 'd-txt']) writeFileSync(join(days, name), '')
    mkdirSync(join(days, 'e.txt'))
    expect(prescriptionsIn(days, '').map(({ name }) => name)).toEqual([
      'b.json',
      'day-2.txt',
      'day-3.txt',
      'day.txt',
    ])
    expect(prescriptionsIn(logbook, 'nowhere/')).toEqual([])
  })
})

describe('a day that is read', () => {
  const said = (path: string) => {
    const day = dayOrMessage(path, { units: { distance: 'km', mass: 'kg' }, maxima: [] })
    return 'message' in day ? day.message : day.prescription.title
  }

  it('is told apart from one that is gone, no file or too large, or has one or more problems', () => {
    const folder = temporaryFolder()
    const path = join(folder, 'day.txt')
    const written = (text: string) => {
      writeFileSync(path, text)
      return said(path)
    }
    expect(said(path)).toBe('the file is gone')
    expect(said(folder)).toBe('the file is a folder')
    expect(written('Monday\n\nlift\n  squat 3 x\n')).toMatch(/^line 4: (?!.*more;)/)
    expect(written('Monday\n\nlift\n  squat 3 x\n  bench 3 y 5\n')).toMatch(
      /^line 4: .* \(and 1 more; "pausebook check" shows all\)$/,
    )
    const day = 'Monday\n\nlift\n  squat 3 x 5\n'
    expect(written(day)).toBe('Monday')
    expect(written(day.padEnd(1024 * 1024))).toMatch(/^line 5: this line has 1048549 characters/)
    expect(written(day.padEnd(1024 * 1024 + 1))).toBe('the file is larger than 1 MiB')
  })
})

describe('the plan of a logbook', () => {
  it('is missing without a file, with problems in it, and if it cannot be read', () => {
    const logbook = temporaryFolder()
    expect(planIn(logbook)).toBeNull()
    writeFileSync(join(logbook, 'plan.txt'), 'Plan\nrace: 10 km in 39:30 on 2027-04-18\n')
    expect(planIn(logbook)?.race?.seconds).toBe(2370)
    writeFileSync(join(logbook, 'plan.txt'), 'Plan\nrace: soon\n')
    expect(planIn(logbook)).toBeNull()
    const other = temporaryFolder()
    mkdirSync(join(other, 'plan.txt'))
    expect(planIn(other)).toBeNull()
  })
})

describe('the foods of a logbook', () => {
  it('are the plain ones without a file, and none where the file cannot be read', () => {
    const logbook = temporaryFolder()
    expect(foodsIn(logbook).length).toBeGreaterThan(10)
    mkdirSync(join(logbook, 'foods.txt'))
    expect(foodsIn(logbook)).toEqual([])
  })

  it('are those of the file, and its problems are reported only if it has any', () => {
    const logbook = temporaryFolder()
    const said: number[] = []
    const foods = (text: string) => {
      writeFileSync(join(logbook, 'foods.txt'), text)
      return foodsIn(logbook, (problems) => void said.push(problems.length)).map(({ name }) => name)
    }
    expect(foods('quinoa 100 g: 21.3 C 4.4 P 1.9 F\n')).toEqual(['quinoa'])
    expect(said).toEqual([])
    expect(foods('quinoa 100 g: 21.3 C 4.4 P 1.9 F\nrubbish\n')).toEqual(['quinoa'])
    expect(said).toEqual([1])
  })
})

describe("the athlete's own texts", () => {
  it('are kept with their line ends and their mark, and one that is too large or no text is refused', () => {
    const logbook = temporaryFolder()
    expect(readOwnText(logbook, 'foods.txt')).toBeNull()
    const text = '\uFEFFrice 100 g: 28 C\r\n'
    writeFileSync(join(logbook, 'foods.txt'), text)
    expect(readOwnText(logbook, 'foods.txt')).toBe(text)
    const path = join(logbook, 'plan.txt')
    const refused = (content: string | Buffer, why: string) => {
      writeFileSync(path, content)
      expect(() => readOwnText(logbook, 'plan.txt')).toThrow(
        new LogbookError('cannot_read', `plan.txt ${why}. Correct or move ${path}.`),
      )
    }
    refused('a'.repeat(1024 * 1024 + 1), 'is larger than 1 MiB')
    refused(Buffer.from([0xff, 0xfe]), 'is not UTF-8 text')
    writeFileSync(path, 'a'.repeat(1024 * 1024))
    expect(readOwnText(logbook, 'plan.txt')).toHaveLength(1024 * 1024)
  })

  it('are added only if there is none, and changed only if they are still as they were read', () => {
    const logbook = join(temporaryFolder(), 'book')
    expect(addOwnText(logbook, 'plan.txt', 'One\n')).toBe(true)
    expect(addOwnText(logbook, 'plan.txt', 'Two\n')).toBe(false)
    expect(readOwnText(logbook, 'plan.txt')).toBe('One\n')
    expect(() => changeOwnText(logbook, 'plan.txt', 'Other\n', 'Two\n')).toThrow(
      'plan.txt was changed meanwhile and is left as it is. Try again.',
    )
    changeOwnText(logbook, 'plan.txt', 'One\n', 'Two\n')
    expect(readOwnText(logbook, 'plan.txt')).toBe('Two\n')
    expect(readFileSync(join(logbook, 'plan.txt.bak'), 'utf8')).toBe('One\n')
  })

  it('are as they were if they cannot be written, and say why', () => {
    const logbook = temporaryFolder()
    writeFileSync(join(logbook, 'plan.txt'), 'One\n')
    failing('openSync', 'ENOSPC')
    const full = (name: string) =>
      new LogbookError(
        'cannot_write',
        `${join(logbook, name)} cannot be written: the disk is full. Nothing was changed. Make room or change the permissions there, and try again.`,
      )
    expect(() => addOwnText(logbook, 'foods.txt', 'rice\n')).toThrow(full('foods.txt'))
    expect(() => addPrescription(logbook, 'day', 'Day\n')).toThrow(
      new LogbookError(
        'cannot_write',
        `The day cannot be written into ${join(logbook, 'prescriptions')}: the disk is full. Give another logbook with --logbook.`,
      ),
    )
  })
})
