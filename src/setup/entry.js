#!/usr/bin/env node
import './node.cjs'
import module from 'node:module'
import { join } from 'node:path'

/* dist/pausebook.js. Compiled code is kept in the user's own cache folder, never in a shared one. */

const { HOME, LOCALAPPDATA, XDG_CACHE_HOME } = process.env
const cache = XDG_CACHE_HOME || LOCALAPPDATA || (HOME && join(HOME, '.cache'))
// Node 22 and newer have it.
if (cache && module.enableCompileCache) module.enableCompileCache(join(cache, 'pausebook'))

import('../commands/program.ts').then(({ main }) => main())
