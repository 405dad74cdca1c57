import { spawnSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { editorOf, editUntilRead } from '../../src/commands/new.ts'
import { spawnable } from '../../src/logbook/machine.ts'
import { onWindows } from '../onWindows.ts'
import { temporaryFolder } from '../temporaryFolder.ts'

describe('the editor', () => {
  it("is VISUAL, else EDITOR, else the system's usual one", () => {
    expect(editorOf({ VISUAL: 'a', EDITOR: 'b' })).toBe('a')
    expect(editorOf({ VISUAL: ' ', EDITOR: 'b' })).toBe('b')
    expect(editorOf({})).toBe('vi')
    onWindows()
    expect(editorOf({})).toBe('notepad')
  })

  it("is started by the system's shell, and the file is one word of it, whatever its name", () => {
    const { command, words } = spawnable('printf "%s|"', `my "days"/$HOME's.txt`)
    expect(spawnSync(command, words, { encoding: 'utf8' }).stdout).toBe(`my "days"/$HOME's.txt|`)
    onWindows()
    expect(spawnable('code --wait', 'my days\\legs.txt')).toEqual({
      command: 'code --wait "my days\\legs.txt"',
      words: [],
      shell: true,
    })
  })
})

describe('editing a day', () => {
  const good = 'Legs\n\nlift\n  front squat: 3 x 5 @ 60 kg\n'
  const bad = 'Legs\n\nrun\n  2 km @ 3:75/km\n'

  /** What the editor leaves each time, and whether the user goes back. */
  async function edited(versions: string[], answers: boolean[]) {
    const path = join(temporaryFolder(), 'day.txt')
    let said = ''
    let times = 0
    const isRead = await editUntilRead(path, {
      edit: async () => writeFileSync(path, versions[times++] ?? ''),
      goesBack: async () => answers.shift() ?? false,
      err: (text) => {
        said += text
      },
      defaults: {},
    })
    return { isRead, said, times }
  }

  it('ends if the day can be read', async () => {
    expect(await edited([good], [])).toEqual({ isRead: true, said: '', times: 1 })
  })

  it('shows the problems with their lines and returns to the editor on Enter', async () => {
    const { isRead, said, times } = await edited([bad, good], [true])
    expect({ isRead, times }).toEqual({ isRead: true, times: 2 })
    expect(said).toMatch(/^day\.txt:4:\d+: .*3:75.*\n {2} {2}2 km @ 3:75\/km\n {2} +\^+\n\n1 problem\. /)
    expect(said).toContain('1 problem. Enter goes back to the editor, q and Enter leaves the day as it is. ')
  })

  it('otherwise ends with the problems unsolved', async () => {
    expect(await edited([bad], [false])).toMatchObject({ isRead: false, times: 1 })
  })
})
