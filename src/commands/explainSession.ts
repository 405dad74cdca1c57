import { catalogue, type FigureName } from '../figures/catalogue.ts'
import { contextOn } from '../logbook/index.ts'
import { planIn } from '../logbook/ownTexts.ts'
import { openLogbook } from '../logbook/store.ts'
import { type SessionSteps, sessionFigures, sessionSteps } from '../summary/explain.ts'
import { jsonOf } from '../summary/json.ts'
import { figuresOf } from '../summary/summarise.ts'
import { screenLines } from '../ui/widgets/wrapped.ts'
import { CommandError, type CommandInput } from './command.ts'
import { stepLines } from './explainText.ts'
import { loadSettings } from './loadSettings.ts'

interface Worked {
  name: FigureName
  title: string
  worked: SessionSteps[]
}

/** Figures of a session, or all of them, each step with the session's numbers.
 * @param asked null for all
 * @throws CommandError `not_of_a_session`; LogbookError for an unknown session */
export function explainSession(
  input: CommandInput,
  which: string,
  asked: readonly FigureName[] | null,
): string {
  const strange = asked?.find((name) => !sessionFigures.includes(name))
  if (strange !== undefined) {
    throw new CommandError(
      'not_of_a_session',
      `${strange} is not a figure of one session. pausebook explain ${strange} shows how it is computed.`,
    )
  }
  const settings = loadSettings(input)
  const { entry, session } = openLogbook(input.logbookDir).read(which)
  const explained = figuresOf(session, contextOn(settings, entry.date, planIn(input.logbookDir)?.race))
  const names = asked ?? sessionFigures
  const figures = names.map((name) => ({
    name,
    title: catalogue[name].title,
    worked: sessionSteps(name, explained) ?? [],
  }))
  const shown = asked === null ? figures.filter((figure) => figure.worked.length > 0) : figures
  if (input.json) return jsonOf({ session: session.id, figures: shown })
  const heading = screenLines(`${entry.date} ${session.prescription.title} (${session.id})`, 80).join('\n')
  const sections = shown.map(workedText)
  return `${[heading, ...(sections.length > 0 ? sections : ['Nothing was recorded that has a figure.'])].join('\n\n')}\n`
}

function workedText({ name, title, worked }: Worked): string {
  const parts =
    worked.length === 0
      ? ['  This session has none.']
      : worked.flatMap(({ of, steps }) => [...stepLines([of]), ...stepLines(steps, 4)])
  return [`${title} (${name})`, ...parts].join('\n')
}
