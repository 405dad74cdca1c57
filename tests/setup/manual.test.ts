import { spawnSync } from 'node:child_process'
import { Command } from 'commander'
import { describe, expect, it } from 'vitest'
import { withCommands } from '../../src/commands/commands.ts'
import { documents, manualPage } from '../../src/setup/documents.ts'
import { runProgram } from '../commands/runProgram.ts'

const page = manualPage('0.1.0')
const isThere = (command: string) => spawnSync(command, ['--version']).error === undefined
const plain = page.replace(/\\f[BIR]/g, '').replace(/\\-/g, '-')

describe('the manual page', () => {
  it('describes every command of the table with its words and options', () => {
    const program = withCommands(new Command(), async () => {})
    const commands = program.createHelp().visibleCommands(program)
    for (const command of commands) {
      expect(plain).toContain(`\npausebook ${command.name()}`)
      for (const word of command.registeredArguments) expect(plain).toContain(word.name())
    }
    expect(plain).toContain('\npausebook\n')
    for (const option of [program, ...commands].flatMap(({ options }) => options))
      expect(plain).toContain(`\n--${option.name()}`)
  })

  it('contains the cautions', () => {
    expect(plain).toContain('Pausebook is not a coach, physician or dietitian.')
  })

  it('takes no text for a request', () => {
    const requests = page.match(/^\..*$/gm) ?? []
    expect(requests.filter((line) => !/^\.(TH|SH|TP|RS|RE|br)\b/.test(line))).toEqual([])
    expect(page).not.toMatch(/^'/m)
  })

  it.skipIf(!isThere('groff'))('is formatted without a warning (skipped if groff is not installed)', () => {
    const set = spawnSync('groff', ['-man', '-ww', '-Tutf8', '-z'], { input: page, encoding: 'utf8' })
    expect(set.stderr).toBe('')
  })
})

describe('the completions in the package', () => {
  it.each([
    ['bash', 'completions/pausebook.bash'],
    ['zsh', 'completions/_pausebook'],
    ['fish', 'completions/pausebook.fish'],
    ['powershell', 'completions/pausebook.ps1'],
  ])('are for %s what the command prints', async (shell, path) => {
    expect(documents('0.1.0')[path]).toBe((await runProgram(['completion', shell])).stdout)
  })
})
