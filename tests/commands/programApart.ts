import { fork } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import type { Ran, runProgram } from './runProgram.ts'

const { bundling } = createRequire(import.meta.url)('../../src/setup/build.cjs')

const script = `import { runProgram } from './runProgram.ts'
process.on('message', async ([argv, given]) => process.send(await runProgram(argv, given)))`

/** Runs command lines as runProgram does, one after the other, in a small process that ends with `end`. Starting a
 * program copies the process that starts it, and a process of the tests is so large that this takes longer than most
 * of what git does. */
export async function programApart(): Promise<{ run: typeof runProgram; end: () => Promise<void> }> {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-apart-'))
  await build({
    stdin: { contents: script, resolveDir: import.meta.dirname },
    ...bundling,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    splitting: true,
    // Only the app needs them, which is not run there.
    external: ['ink', 'react', 'react/jsx-runtime'],
  })
  const child = fork(join(folder, 'stdin.mjs'), { execArgv: [], serialization: 'advanced' })
  const gone = new AbortController()
  child.once('exit', () => gone.abort())
  return {
    run: async (argv, given = {}) => {
      const answer = once(child, 'message', { signal: gone.signal })
      child.send([argv, given])
      const [ran] = await answer
      return ran as Ran
    },
    end: async () => {
      const end = once(child, 'exit')
      child.disconnect()
      await end
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
