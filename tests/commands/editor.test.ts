import { spawnSync } from 'node:child_process'
import { describe, expect, it } from 'vitest'
import { editorLine, editorOf } from '../../src/commands/editor.ts'
import { onWindows } from '../onWindows.ts'

describe('the editor', () => {
  it('is VISUAL, else EDITOR, and no program that the user has not named', () => {
    expect(editorOf({ VISUAL: 'a', EDITOR: 'b' })).toBe('a')
    expect(editorOf({ VISUAL: ' ', EDITOR: 'b' })).toBe('b')
    expect(editorOf({ EDITOR: '' })).toBeNull()
  })

  it("is started by the system's shell, and the file is one word of it, whatever its name", () => {
    const line = editorLine('printf "%s|"', `my "days"/$HOME's.txt`)
    expect(spawnSync(line, { encoding: 'utf8', shell: true }).stdout).toBe(`my "days"/$HOME's.txt|`)
    onWindows()
    expect(editorLine('code --wait', 'my days\\legs.txt')).toBe('code --wait "my days\\legs.txt"')
  })
})
