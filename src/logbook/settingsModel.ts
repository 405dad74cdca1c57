import * as z from 'zod'
import { formulaNames } from '../figures/oneRepMax.ts'
import { MassUnit } from '../units/model.ts'
import { settingsFormat } from './settingsFormat.ts'

/** Heavier than any bar; what is above is no mass but a slip. */
const mass = z.number().positive().max(500)
const plates = z.array(z.strictObject({ mass, pairs: z.int().min(1).max(99) })).max(40)

/** What an athlete has set once for all days. */
export const Settings = z.strictObject({
  format: z.literal(settingsFormat),
  /** Of a prescription that names none, and of what is printed. */
  units: z.strictObject({ distance: z.enum(['km', 'mi']), mass: MassUnit }),
  /** From the local date on that stands with it; in order of dates, one a date. */
  bodyMasses: z.array(
    z.strictObject({ date: z.iso.date(), value: z.number().positive().max(1000), unit: MassUnit }),
  ),
  /** By the unit in which one loads. */
  bar: z.strictObject({ kg: mass, lb: mass }),
  /** One collar; 0 without. */
  collar: z.strictObject({ kg: z.number().min(0).max(100), lb: z.number().min(0).max(100) }),
  plates: z.strictObject({ kg: plates, lb: plates }),
  /** Exercises that are on a bar, or are not, besides what their names say. Files before 0.1 lack them. */
  onBar: z.array(z.string().min(1)).max(100).optional(),
  offBar: z.array(z.string().min(1)).max(100).optional(),
  /** What a one-repetition maximum is computed with: the median of the seven equations, or one of them. */
  formula: z.enum(formulaNames),
  /** Highest heart rate, beats a minute; null where it is not known. */
  hrMax: z.int().min(100).max(240).nullable(),
  /** A list is a command and its arguments, called without a shell. */
  bell: z.union([z.enum(['on', 'off']), z.array(z.string()).min(1)]),
  /** By which the clock ends the groups of a set that it paces. */
  secondsPerRepetition: z.number().min(0.5).max(60),
  advice: z.boolean(),
  /** `blocks`: digits five rows high where there is room; `plain`: digits as text. */
  clock: z.enum(['blocks', 'plain']),
  /** `auto`: what the terminal's character set can show. */
  characters: z.enum(['auto', 'unicode', 'ascii']),
  screenReader: z.boolean(),
  notifications: z.boolean(),
  /** What kinds of day follow each other; empty without. */
  rotation: z.array(z.string().min(1)).max(30),
  /** Where sync pushes to; null without. */
  syncRemote: z.string().min(1).nullable(),
  firstStartSeen: z.boolean(),
})
export type Settings = z.infer<typeof Settings>
