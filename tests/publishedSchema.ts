import { readFileSync } from 'node:fs'
import Ajv, { type ValidateFunction } from 'ajv/dist/2020.js'
import addFormats from 'ajv-formats'

const ajv = new Ajv({ strict: true, strictTypes: false, allErrors: true, code: { optimize: false } })
addFormats(ajv)
const compiled = new Map<string, ValidateFunction>()

/** Whether a value is as `shared/NAME.schema.json` says; compiled once, because that takes long. */
export function publishedSchema(name: string): ValidateFunction {
  const path = new URL(`../shared/${name}.schema.json`, import.meta.url)
  const isValid = compiled.get(name) ?? ajv.compile(JSON.parse(readFileSync(path, 'utf8')))
  compiled.set(name, isValid)
  return isValid
}
