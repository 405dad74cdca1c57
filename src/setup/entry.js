#!/usr/bin/env node
import './node.cjs'
import module from 'node:module'
import { cacheFolderOf } from '../logbook/machine.ts'

/* dist/pausebook.js. Compiled code is kept in the user's own cache folder, never in a shared one. */

const cache = cacheFolderOf(process.env)
// Node 22 and newer have it.
if (cache !== null) module.enableCompileCache?.(cache)

import('../commands/program.ts').then(({ main }) => main())
