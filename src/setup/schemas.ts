import * as z from 'zod'
import { Mornings } from '../logbook/model.ts'
import { morningFormat } from '../logbook/text.ts'
import { DayFigures, Prescription } from '../prescription/model.ts'
import { Session } from '../session/model.ts'
import { sessionFormat } from '../session/replay.ts'
import { Summary } from '../summary/model.ts'

/* The JSON Schemas that other programs can rely on, made from the program's own schemas.
 * `npm run docs` writes them into shared/; a test fails if a file there differs. */

/** By file name in shared/. */
export function publishedSchemas(): Record<string, object> {
  return {
    'prescription.schema.json': schemaOf(
      Prescription,
      'A Pausebook prescription',
      'What is to be done on a day: the same as a day in the notation. Seconds, and metres or kilograms only where no unit is given; every amount keeps the unit in which it was written. When a file is read, `line` and `text` of its items may be missing, and what the notation cannot write is refused.',
    ),
    'session.schema.json': schemaOf(
      Session.extend({
        checksum: z
          .string()
          .regex(/^[0-9a-f]{64}$/)
          .optional(),
      }),
      `A Pausebook session, format ${sessionFormat}`,
      'What was to be done on a day, and what happened, in the order in which it happened. Seconds, and metres where no unit is given; a load keeps the unit in which it was typed. A later event for a step corrects an earlier one; "undone" takes back everything from the event with the index "from" on. Everything shown is computed from these events. "checksum" is the SHA-256 of the file\'s UTF-8 bytes with its own 64 digits set to 0; a file without one is read.',
    ),
    'mornings.schema.json': schemaOf(
      Mornings,
      `A year of mornings, format ${morningFormat}`,
      'What was typed on the mornings of a year, in order: sleep in seconds, resting heart rate, body mass, soreness or pain by place from 0 to 10, a note. A later word for the same thing of the same morning takes the place of an earlier one; "undone" takes back the last that was typed for that morning.',
    ),
    'summary.schema.json': schemaOf(
      Summary,
      'What `pausebook summary --json` prints',
      'The figures of one session: SI units, named in the keys, in full precision. Null is what cannot be known; nothing done is known to be nothing, and is 0. No key is ever missing. Every piece of work of the run and cross parts is there, done or not; every exercise with a recorded set, one entry a name.',
    ),
    'check.schema.json': schemaOf(
      DayFigures,
      'What `pausebook check --json` prints',
      'A prescription laid out: how many results it asks for, its metres, sets, planned tonnage and, roughly, its minutes. targetSeconds is from and to for one entry, and absent where nothing fixes it.',
    ),
  }
}

function schemaOf(schema: z.ZodType, title: string, description: string): object {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12' })
  return { $schema, title, description, ...rest }
}
