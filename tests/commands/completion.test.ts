import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Command } from 'commander'
import { describe, expect, it, onTestFinished } from 'vitest'
import { withCommands } from '../../src/commands/commands.ts'
import { runProgram } from './runProgram.ts'

const program = withCommands(new Command(), async () => {})
const shown = program.createHelp().visibleCommands(program)
const names = shown.map((command) => command.name())
const isThere = (shell: string) => spawnSync(shell, ['--version']).error === undefined

async function script(shell: string): Promise<string> {
  const { code, stdout } = await runProgram(['completion', shell])
  expect(code).toBe(0)
  return stdout
}

/** The path of a script, which is deleted after the test. */
async function saved(shell: string, ending: string): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-completion-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  writeFileSync(join(folder, `pausebook.${ending}`), await script(shell))
  return join(folder, `pausebook.${ending}`)
}

/** What bash offers for the words typed so far, the last one unfinished. */
async function offeredByBash(...words: string[]): Promise<string[]> {
  const typed = words.map((word) => `'${word}'`).join(' ')
  const program = `${await script('bash')}
COMP_WORDS=(pausebook ${typed}); COMP_CWORD=${words.length}; _pausebook; printf '%s\\n' "\${COMPREPLY[@]}"`
  // bash complains about a locale that is not installed.
  const env = { ...process.env, LC_ALL: 'C' }
  const ran = spawnSync('bash', ['-c', program], { encoding: 'utf8', env })
  expect(ran.stderr).toBe('')
  return ran.stdout.split('\n').filter((line) => line !== '')
}

describe('completion', () => {
  it('offers every command in bash', async () => {
    expect(await offeredByBash('')).toEqual(expect.arrayContaining(names))
  })

  it('completes a command, its words and its options in bash', async () => {
    expect(await offeredByBash('compl')).toEqual(['completion'])
    expect(await offeredByBash('completion', 'z')).toEqual(['zsh'])
    expect(await offeredByBash('completion', '--lo')).toEqual(['--logbook'])
  })

  it.each(['bash', 'zsh', 'fish', 'powershell'])('names every command and option for %s', async (shell) => {
    const text = await script(shell)
    for (const name of names) expect(text).toContain(name)
    for (const { options } of [program, ...shown])
      for (const option of options) expect(text).toContain(option.name())
  })

  it.skipIf(!isThere('zsh'))('is zsh to zsh (skipped where zsh is not installed)', async () => {
    expect(spawnSync('zsh', ['-n'], { input: await script('zsh'), encoding: 'utf8' }).stderr).toBe('')
  })

  it.skipIf(!isThere('fish'))('is fish to fish (skipped where fish is not installed)', async () => {
    expect(
      spawnSync('fish', ['--no-execute', await saved('fish', 'fish')], { encoding: 'utf8' }).stderr,
    ).toBe('')
  })

  it.skipIf(!isThere('pwsh'))(
    'offers commands in PowerShell (skipped where pwsh is not installed)',
    async () => {
      const program = `. '${await saved('powershell', 'ps1')}'
(TabExpansion2 -inputScript 'pausebook compl' -cursorColumn 15).CompletionMatches.CompletionText`
      const ran = spawnSync('pwsh', ['-NoProfile', '-Command', program], { encoding: 'utf8' })
      expect(ran.stdout.trim()).toBe('completion')
    },
  )
})
