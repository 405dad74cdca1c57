import { execFileSync, spawnSync } from 'node:child_process'
import { cpSync, existsSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, type TestContext } from 'vitest'
import { openLogbook } from '../../src/logbook/store.ts'
import type { SessionEvent } from '../../src/session/model.ts'
import { type Apart, apart } from '../apart.ts'
import { skip } from '../faults/harness.ts'
import { legs, setRecorded, started } from '../logbook/sampleSession.ts'
import { temporaryFolder } from '../temporaryFolder.ts'
import type { runProgram as Run } from './runProgram.ts'

/* Machines that keep their logbooks in step through a git repository. */

export const hasGit = spawnSync('git', ['--version']).status === 0
if (!hasGit) process.stderr.write('sync is not tried here: there is no git on this machine\n')

/** All folders of a test file, and what the functions below copy: machines in step, by the number of their sessions. */
let allFolders = ''
const prepared = new Map<number, { remote: string; logbooks: string[]; ids: string[] }>()
let called: Apart<typeof import('./runProgram.ts')>['call']

/** Prepares the machines for the tests of a file. */
export function useMachines(): void {
  allFolders = temporaryFolder(afterAll)
  prepared.clear()
  beforeAll(async () => {
    if (!hasGit) return
    const empty = join(allFolders, 'empty.git')
    execFileSync('git', ['init', '--quiet', '--bare', '--template=', '--initial-branch=main', empty])
    const { call, end } = await apart<typeof import('./runProgram.ts')>(
      join(import.meta.dirname, 'runProgram.ts'),
    )
    called = call
    return end
  })
}

/** Makes a folder an empty bare repository. */
export const emptyIn = (folder: string) => cpSync(join(allFolders, 'empty.git'), folder, { recursive: true })

/** Runs a command line in a process that starts git faster than this one. */
export const runProgram: typeof Run = (...given) => called('runProgram', ...given)

/** A folder that is removed after the tests of the file. */
export const ownFolder = () => mkdtempSync(join(allFolders, 'folder-'))

/** These hide this machine's own git settings. */
export function environment(): Record<string, string> {
  const home = ownFolder()
  // Git starts no process of its own to tidy up or to unpack a commit. It changes line endings, as Git for Windows does.
  writeFileSync(
    join(home, '.gitconfig'),
    '[gc]\nauto = 0\n[maintenance]\nauto = false\n[receive]\nautogc = false\n[fastimport]\nunpackLimit = 1\n[core]\nautocrlf = true\n',
  )
  return { PATH: process.env.PATH ?? '', HOME: home, XDG_CONFIG_HOME: home, GIT_CONFIG_NOSYSTEM: '1' }
}

const user = ['-c', 'user.name=x', '-c', 'user.email=x@example.org']

export function git(folder: string, ...words: string[]): string {
  return execFileSync('git', [...user, ...words], {
    cwd: folder,
    encoding: 'utf8',
    env: environment(),
    stdio: 'pipe',
  }).trim()
}

/** A bare repository and this many machines with an empty logbook each, the first three of which have names. */
export async function machines(count: number) {
  const remote = join(ownFolder(), 'logbook.git')
  emptyIn(remote)
  const all: Machine[] = []
  while (all.length < count) all.push(await machineOf(ownFolder(), remote))
  const [a, b, c] = all as [Machine, Machine, Machine]
  return { remote, all, a, b, c }
}

export type Machine = Awaited<ReturnType<typeof machineOf>>

export async function machineOf(logbook: string, remote: string) {
  const env = environment()
  await runProgram(['settings', 'sync-remote', remote], { logbook })
  return { logbook, env, sync: () => runProgram(['sync'], { logbook, env }) }
}

/** Two synchronised machines, with this many unfinished sessions; `id` is the first. */
export async function inStep(sessions = 1) {
  const made = prepared.get(sessions) ?? (await prepare(sessions))
  const remote = join(ownFolder(), 'logbook.git')
  cpSync(made.remote, remote, { recursive: true })
  const all: Machine[] = []
  for (const from of made.logbooks) {
    const logbook = ownFolder()
    cpSync(from, logbook, { recursive: true, preserveTimestamps: true })
    all.push(await machineOf(logbook, remote))
  }
  const [a, b] = all as [Machine, Machine]
  const { ids } = made
  return { remote, a, b, ids, id: ids[0] ?? '' }
}

async function prepare(sessions: number) {
  const folder = ownFolder()
  const remote = join(folder, 'logbook.git')
  emptyIn(remote)
  const logbooks = ['a', 'b'].map((name) => join(folder, name))
  const ids = Array.from({ length: sessions }, () => record(join(folder, 'a'), setRecorded(1)))
  for (const logbook of logbooks) await (await machineOf(logbook, remote)).sync()
  const made = { remote, logbooks, ids: ids.sort() }
  prepared.set(sessions, made)
  return made
}

export function record(logbook: string, ...events: SessionEvent[]): string {
  const file = openLogbook(logbook).create(legs, started, events)
  file.close()
  return file.id
}

export function append(logbook: string, id: string, ...events: SessionEvent[]): void {
  const file = openLogbook(logbook).open(id)
  file.append(events)
  file.close()
}

/** The only session of two machines in step. */
export const sessionIn = (logbook: string) =>
  join(logbook, 'sessions', '2026', `2026-11-26-${prepared.get(1)?.ids[0]}.json`)

/** A git that counts how often it is started, and does something else first. */
export function gitThat(context: TestContext, does: string): { path: string; log: string } {
  if (process.platform === 'win32') skip(context, 'Windows runs no script in the place of git')
  const folder = temporaryFolder()
  const log = join(folder, 'log')
  const lines = [
    '#!/bin/sh',
    `LOG=${log}`,
    'echo >> "$LOG"',
    // Without a further process.
    'CALL=0; while read -r line; do CALL=$((CALL + 1)); done < "$LOG"',
    does,
    `PATH="${process.env.PATH}" exec git "$@"`,
  ]
  writeFileSync(join(folder, 'git'), lines.join('\n'), { mode: 0o755 })
  return { path: `${folder}:${process.env.PATH}`, log }
}

export function linesIn(log: string): number {
  return existsSync(log) ? readFileSync(log, 'utf8').split('\n').length - 1 : 0
}

export const idsIn = (logbook: string) =>
  openLogbook(logbook)
    .list()
    .map((entry) => entry.id)
    .sort()
export const eventsOf = (logbook: string, id: string) => openLogbook(logbook).read(id).session.events
