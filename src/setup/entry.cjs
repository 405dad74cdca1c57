#!/usr/bin/env node
'use strict'
require('./node.cjs')
const { readFileSync } = require('node:fs')
const module_ = require('node:module')
const { join } = require('node:path')
const vm = require('node:vm')

/* dist/pausebook.js: begins with the part START. Node 22 and newer keep compiled code between runs when asked
 * before anything large is loaded. For the Node 20 that built it, compiled code lies beside each part; another
 * one's is refused by V8, and compiled again. */

const start = 'START'

if (module_.enableCompileCache) {
  module_.enableCompileCache()
  require(start)
} else {
  load(start)
}

function load(path, loaded = new Map()) {
  const known = loaded.get(path)
  if (known) return known.exports
  const part = { exports: {} }
  loaded.set(path, part)
  const filename = join(__dirname, path)
  const script = new vm.Script(module_.wrap(readFileSync(filename, 'latin1')), {
    filename,
    cachedData: compiled(`${filename}.v8`),
  })
  const requirePart = (name) =>
    name.startsWith('./') ? load(`./parts/${name.slice(2)}`, loaded) : require(name)
  script.runInThisContext()(part.exports, requirePart, part, filename, join(__dirname, 'parts'))
  return part.exports
}

function compiled(path) {
  try {
    return readFileSync(path)
  } catch {
    return undefined
  }
}
