import { type ResultStep, type Step, stepsByItem } from '../../prescription/step.ts'
import { lineText } from '../../session/names.ts'
import type { SessionState } from '../../session/state.ts'
import { applyFacts, recording } from '../apply.ts'
import { entryTitle, lineTitle, resultText, typedText } from '../labels.ts'
import { type Mode, type RecorderModel, stay, type Updated, withMode } from '../model.ts'
import { recordedSteps } from '../targets.ts'
import { leaveKey, moved, panelWith } from './keysAndPanels.ts'
import { correcting } from './questions.ts'

/* The modes in which arrow keys pick from a list. */

/** Picks an earlier result to correct it. */
export function picking(index: number): Mode {
  return {
    kind: 'picking',
    panel: ({ state }) =>
      panelWith({
        title: 'correct which result?',
        lines: recordedSteps(state).map((step) => {
          const line = step.kind === 'interval' ? `${lineTitle(state, step).label}, ` : ''
          return `${line}${entryTitle(state, step).label}: ${resultText(state, step) ?? ''}`
        }),
        selected: index,
      }),
    keys: ({ state }) => {
      const steps = recordedSteps(state)
      return [
        { key: 'Enter', label: 'edit', run: (model) => stay(withResult(model, steps[index])) },
        {
          key: '↑ ↓',
          label: 'pick',
          run: (model, pressed) => withMode(model, picking(moved(index, pressed, steps.length))),
        },
        leaveKey('cancel'),
      ]
    },
  }
}

function withResult(model: RecorderModel, step: ResultStep | undefined): RecorderModel {
  if (!step) return recording(model)
  return { ...model, mode: correcting(step), draft: typedText(model.state, step), notice: null }
}

/** The order of the items still to come.
 * @param isCarried the picked item moves with the arrows */
export function ordering(index: number, isCarried: boolean): Mode {
  const to = (model: RecorderModel, pressed: string) => moved(index, pressed, itemsAhead(model.state).length)
  return {
    kind: 'ordering',
    panel: ({ state }) =>
      panelWith({
        title: isCarried ? 'move it with the arrows' : 'the order of what is left',
        lines: itemsAhead(state).map((step) => lineText(state, step)),
        selected: index,
      }),
    keys: () =>
      isCarried
        ? [
            {
              key: '↑ ↓',
              label: 'move',
              run: (model, pressed) => {
                const place = to(model, pressed)
                return movedTo({ ...model, mode: ordering(place, true) }, index, place)
              },
            },
            { key: 'Enter', label: 'drop', also: 'escape', run: (model) => stay(recording(model)) },
          ]
        : [
            { key: 'Enter', label: 'move', run: (model) => withMode(model, ordering(index, true)) },
            { key: 'b', label: 'begin', run: (model) => movedTo(recording(model), index, 0) },
            {
              key: '↑ ↓',
              label: 'pick',
              run: (model, pressed) => withMode(model, ordering(to(model, pressed), false)),
            },
            leaveKey('cancel'),
          ],
  }
}

/** The items still to come, each represented by its first step, in order. */
function itemsAhead(state: SessionState): Step[] {
  const ahead = state.steps.filter((step) => !state.passed.has(step.id))
  return stepsByItem(ahead).map((steps) => steps[0] as Step)
}

function movedTo(model: RecorderModel, from: number, to: number): Updated {
  const items = itemsAhead(model.state)
  const item = items[from]
  const before = items.filter((_, index) => index !== from)[to]
  if (!item || from === to) return stay(model)
  return applyFacts(model, {
    type: 'itemMoved',
    item: [item.part, item.item],
    before: before ? [before.part, before.item] : null,
  })
}
