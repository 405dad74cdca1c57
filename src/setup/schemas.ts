import { z } from 'zod'
import { Session, sessionFormat } from '../session/model.ts'

/* The JSON Schemas that other programs can rely on, made from the schemas that the program itself reads by.
 * `node src/setup/schemas.cjs` writes them into shared/; a test fails while a file there is another. */

/** By the name of their file in shared/. */
export function publishedSchemas(): Record<string, object> {
  return {
    'session.schema.json': schemaOf(
      Session,
      `A Pausebook session, format ${sessionFormat}`,
      'What was to be done on a day, and what happened, in the order in which it happened. Seconds, and metres where no unit is given; a load keeps the unit in which it was typed. A later event for a step corrects an earlier one; "undone" takes back everything from the event with the index "from" on. Everything shown is computed from these events.',
    ),
  }
}

function schemaOf(schema: z.ZodType, title: string, description: string): object {
  const { $schema, ...rest } = z.toJSONSchema(schema, { target: 'draft-2020-12' })
  return { $schema, title, description, ...rest }
}
