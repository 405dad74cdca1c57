import type * as z from 'zod'
import { IndexRow, LockText, Mornings, Settings } from '../../logbook/model.ts'
import { Prescription } from '../../prescription/model.ts'
import { Session, SessionEvent } from '../../session/model.ts'
import { shapesOf } from './shapes.ts'

/* Generates code from the schemas before the program is built, so that it starts without zod. */

interface Compiled {
  text: string
  types: string
}

/** By path below src/, without extension. */
export function compiledTexts(): Record<string, Compiled> {
  return {
    'prescription/generated/shapes': shapesModule({ prescriptionShape: Prescription }),
    'logbook/generated/shapes': withTypes(
      shapesModule({
        settingsShape: Settings,
        sessionShape: Session,
        eventShape: SessionEvent,
        lockShape: LockText,
        indexRowShape: IndexRow,
        morningsShape: Mornings,
      }),
    ),
  }
}

/** Each is a function, because most commands need one or none of them. Parsing text starts faster than code. */
function shapesModule(schemas: Readonly<Record<string, z.ZodType>>): Compiled {
  const names = Object.keys(schemas)
  const texts = Object.entries(schemas).map(
    ([name, schema]) =>
      `let ${name}Made\nexport const ${name} = () => (${name}Made ??= JSON.parse(${JSON.stringify(JSON.stringify(shapesOf(schema)))}))`,
  )
  return {
    text: `${texts.join('\n')}\n`,
    types: `import type { Shapes } from '../../validate/faults.ts'
${names.map((name) => `export function ${name}(): Shapes`).join('\n')}
`,
  }
}

/** The words that distinguish events, next to their shape. */
function withTypes({ text, types }: Compiled): Compiled {
  const names = SessionEvent.options.map((option) => option.shape.type.value)
  return {
    text: `${text}export const eventTypes = ${JSON.stringify(names)}\n`,
    types: `${types}export const eventTypes: readonly unknown[]\n`,
  }
}
