import {
  changeSettings,
  foreignBellText,
  isOwnBell,
  type Settings,
  setOwnBell,
  unwrittenBellText,
} from '../logbook/settings.ts'
import { settingKeyOf, settingKeys, settingsWith } from '../logbook/settingsKeys.ts'
import { sanitize } from '../validate/unsafe.ts'
import { CommandError, type CommandInput, type ExitCode, fitted, show } from './command.ts'
import { contextOf } from './context.ts'

/** Shows all settings, shows one, or sets one.
 * @throws LogbookError `bad_setting` for an unknown key or an invalid value; the old value is kept then
 * @throws CommandError `cannot_write` if a bell command cannot be remembered as this user's */
export async function run(input: CommandInput): Promise<ExitCode> {
  const [key, ...words] = input.words
  const value = words.length === 0 ? undefined : words.join(' ')
  if (key !== undefined) settingKeyOf(key)
  const context = contextOf(input)
  if (key !== undefined && value !== undefined)
    changeSettings(input.logbookDir, (settings) => settingsWith(settings, key, value, context.today))
  // What counts now: the mornings have body masses of their own.
  const { settings } = context
  const { bell } = settings
  if (Array.isArray(bell) && (key === undefined || key === 'bell')) {
    const { env, err } = input.io
    const isOwn = value === undefined ? isOwnBell(bell, env) : setOwnBell(bell, env)
    if (!isOwn && value !== undefined) throw new CommandError('cannot_write', unwrittenBellText(env))
    if (!isOwn) err(`pausebook: ${sanitize(foreignBellText(bell))}\n`)
  }
  const shown = key === undefined ? settingKeys : [settingKeyOf(key)]
  show(
    input,
    Object.fromEntries(shown.map((setting) => [setting.key, setting.print(settings)])),
    key === undefined ? fitted(tableOf(settings), input.io) : `${shown[0]?.print(settings)}\n`,
  )
  return 0
}

/** One line per setting: `units  km kg`, and what it is for. Of the body masses, which mornings add to, only the
 * newest. */
function tableOf(settings: Settings): string {
  const newest = { ...settings, bodyMasses: settings.bodyMasses.slice(-1) }
  const rows = settingKeys.map((setting) => ({ ...setting, value: setting.print(newest) }))
  const width = Math.max(...rows.map((row) => row.key.length))
  return rows
    .map((row) => `${row.key.padEnd(width)}  ${row.value}\n${' '.repeat(width)}  (${row.description})\n`)
    .join('')
}
