import { spawnSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { editorOf } from '../../src/commands/editor.ts'
import { spawnable } from '../../src/logbook/machine.ts'
import { onWindows } from '../onWindows.ts'

describe('the editor', () => {
  it('is VISUAL, else EDITOR, and no program that the user has not named', () => {
    expect(editorOf({ VISUAL: 'a', EDITOR: 'b' })).toBe('a')
    expect(editorOf({ VISUAL: ' ', EDITOR: 'b' })).toBe('b')
    expect(editorOf({ EDITOR: '' })).toBeNull()
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
