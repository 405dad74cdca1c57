import { spawnSync } from 'node:child_process'
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { Command } from 'commander'
import { beforeAll, describe, expect, it } from 'vitest'
import { withCommands } from '../../src/commands/commands.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import { builtProgram } from '../terminal/harness.ts'
import { runProgram } from './runProgram.ts'

const names = withCommands(new Command(), async () => {})
  .createHelp()
  .visibleCommands(withCommands(new Command(), async () => {}))
  .map((command) => command.name())
const isThere = (shell: string) => spawnSync(shell, ['--version']).error === undefined

async function script(shell: string): Promise<string> {
  const { code, stdout } = await runProgram(['completion', shell])
  expect(code).toBe(0)
  return stdout
}

/** What the built program offers in a shell, one a line.
 * @param asking what the shell runs, after the program is a command named pausebook */
function offeredBy(shell: string, options: readonly string[], asking: string): string[] {
  // bash complains about a locale that is not installed.
  const env = { ...process.env, LC_ALL: 'C' }
  const ran = spawnSync(shell, [...options, '-c', asking], { encoding: 'utf8', env })
  expect(ran.stderr).toBe('')
  return ran.stdout.split('\n').filter((line) => line !== '')
}

const self = `pausebook() { '${process.execPath}' dist/pausebook.js "$@"; }`

async function offeredByBash(...words: string[]): Promise<string[]> {
  const typed = words.map((word) => `'${word}'`).join(' ')
  const asking = `${self}\n${await script('bash')}
COMP_WORDS=(pausebook ${typed}); COMP_CWORD=${words.length}; _pausebook; printf '%s\n' "\${COMPREPLY[@]}"`
  return offeredBy('bash', [], asking)
}

describe('completion', () => {
  beforeAll(async () => {
    await builtProgram()
  })

  it('offers every command in bash', async () => {
    expect(await offeredByBash('')).toEqual(expect.arrayContaining(names))
  })

  it('completes a command, its words, its options and their values in bash', async () => {
    expect(await offeredByBash('compl')).toEqual(['completion'])
    expect(await offeredByBash('completion', 'z')).toEqual(['zsh'])
    expect(await offeredByBash('completion', '--lo')).toEqual(['--logbook'])
    expect(await offeredByBash('summary', '--format', '')).toEqual(['text', 'markdown', 'json'])
    expect(await offeredByBash('progress', '--from', '')).toEqual([])
  })

  it.skipIf(!isThere('zsh'))(
    'describes commands and options to zsh (skipped where zsh is not installed)',
    async () => {
      const asking = `${self}\ncompdef() {}; _files() {}; _describe() { print -rl -- \${(P)2}; }
${await script('zsh')}
words=(pausebook progress ''); CURRENT=3; _pausebook`
      const offered = offeredBy('zsh', ['-f'], asking)
      expect(offered).toContain('lift:')
      expect(offered).toContain('--from:from this day on: 2026-11-26')
    },
  )

  it.skipIf(!isThere('fish'))('offers words in fish (skipped where fish is not installed)', async () => {
    const asking = `function pausebook; '${process.execPath}' dist/pausebook.js $argv; end
${await script('fish')}
complete -C 'pausebook compl'`
    const [offered] = offeredBy('fish', ['--no-config'], asking)
    expect(offered).toMatch(/^completion\tprints a completion script/)
  })

  it.skipIf(!isThere('pwsh'))(
    'offers commands in PowerShell (skipped where pwsh is not installed)',
    async () => {
      const saved = join(temporaryFolder(), 'pausebook.ps1')
      writeFileSync(saved, await script('powershell'))
      const program = `function pausebook { & '${process.execPath}' dist/pausebook.js @args }; . '${saved}'
(TabExpansion2 -inputScript 'pausebook compl' -cursorColumn 15).CompletionMatches.CompletionText`
      const ran = spawnSync('pwsh', ['-NoProfile', '-Command', program], { encoding: 'utf8' })
      expect(ran.stdout.trim()).toBe('completion')
    },
  )
})
