#!/usr/bin/env node
import * as module from 'node:module'

// Node 22 and newer keep compiled code between runs when asked before anything large is loaded.
const { enableCompileCache } = module as { enableCompileCache?: () => void }
enableCompileCache?.()

const { main } = await import('./commands/main.ts')
await main()
