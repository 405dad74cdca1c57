import { type ForkOptions, fork } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'

const { bundling } = createRequire(import.meta.url)('../src/setup/generate.cjs')

const server = (module: string) => `import * as module from ${JSON.stringify(module)}
process.on('message', async ([name, given]) => {
  try {
    process.send({ value: await module[name](...given) })
  } catch (error) {
    process.send({ error })
  }
})`

type Answer = { value: unknown } | { error: Error }

export interface Apart<Module> {
  /** Calls a function of the module, one call at a time; throws what the function throws. */
  call<Name extends keyof Module & string>(
    name: Name,
    ...given: Module[Name] extends (...given: infer Given) => unknown ? Given : never
  ): Promise<Module[Name] extends (...given: never[]) => infer Value ? Awaited<Value> : never>
  end(): Promise<void>
}

/** Loads a module into a small process of its own, which may do what a thread of the tests cannot: change the working
 * folder, the time zone or the user. It also starts programs faster, because starting one copies the process that
 * starts it.
 * @param module the path of a TypeScript file without React */
export async function apart<Module>(module: string, options: ForkOptions = {}): Promise<Apart<Module>> {
  const folder = mkdtempSync(join(tmpdir(), 'pausebook-apart-'))
  await build({
    stdin: { contents: server(module), resolveDir: import.meta.dirname },
    ...bundling,
    outdir: folder,
    outExtension: { '.js': '.mjs' },
    splitting: true,
    // Only the app needs them, which is not run there.
    external: ['ink', 'react', 'react/jsx-runtime'],
  })
  const child = fork(join(folder, 'stdin.mjs'), { execArgv: [], serialization: 'advanced', ...options })
  const gone = new AbortController()
  child.once('exit', () => gone.abort())
  return {
    call: async (name, ...given) => {
      const answered = once(child, 'message', { signal: gone.signal })
      child.send([name, given])
      const [answer] = (await answered) as [Answer]
      if ('error' in answer) throw answer.error
      return answer.value as never
    },
    end: async () => {
      const end = once(child, 'exit')
      child.disconnect()
      await end
      rmSync(folder, { recursive: true, force: true })
    },
  }
}
