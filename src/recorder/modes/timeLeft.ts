import { group } from 'd3-array'
import { cutToMinutes, type Only, onlyChoices, tooShortText } from '../../prescription/cutToTime.ts'
import { expectedSecondsOf } from '../../prescription/expectedTime.ts'
import type { Step } from '../../prescription/step.ts'
import { readMinutes } from '../../session/entry/closing.ts'
import { stepName } from '../../session/names.ts'
import { type SessionState, stepUnderWay } from '../../session/state.ts'
import { counted } from '../../units/decimal.ts'
import { applyFacts, recording } from '../apply.ts'
import { type Mode, type RecorderModel, type Updated, withNotice } from '../model.ts'
import { ask, saveOrCancel } from './keysAndPanels.ts'
import { noteAlone } from './notes.ts'

export const timeLeft: Mode = {
  kind: 'timeLeft',
  prompt: () => ({ label: 'minutes left', placeholder: 'for example 25' }),
  keys: ({ draft }) => saveOrCancel(offerCut, draft !== ''),
}

/** Shows what would be cut to fit the typed minutes; `25 run` or `25 lift` keeps only one of the two. */
function offerCut(model: RecorderModel): Updated {
  const { state } = model
  const underWay = stepUnderWay(state)
  const remarks = noteAlone(model)
  if (remarks) return remarks
  const [, typed = model.draft, word] = /^(.*\S)\s+(run|lift)$/i.exec(model.draft.trim()) ?? []
  const only = word === undefined ? null : (word.toLowerCase() as Only)
  const reading = readMinutes(typed)
  if (reading.outcome === 'error') return withNotice(model, reading.message)
  const minutes = reading.value ?? 0
  if (minutes <= 0) return withNotice(model, 'type the minutes that are left; Escape cancels')
  const ahead = state.steps.filter((step) => !state.passed.has(step.id) && step !== underWay)
  const cutTo = (part: Only | null) => {
    const gone = cutToMinutes(ahead, minutes, state.prescription, part)
    const kept = ahead.filter((step) => !gone.includes(step))
    return { gone, minutes: Math.ceil(expectedSecondsOf(kept, state.prescription) / 60) }
  }
  const needed = Math.ceil(expectedSecondsOf(ahead, state.prescription) / 60)
  if (needed <= minutes && only === null)
    return withNotice(recording(model), `about ${needed} min left: nothing needs to be cut`)
  const { gone: cut, minutes: left } = cutTo(only)
  if (left > minutes) {
    const parts = state.prescription.parts.filter((_, at) => ahead.some(({ part }) => part === at))
    const choices = only === null ? onlyChoices(parts, minutes, cutTo) : []
    const typed = (part: Only) => `type ${minutes} ${part}`
    return withNotice(model, tooShortText(minutes, left, choices, typed))
  }
  const lines = [...linesOf(state, cut), `then about ${left} min, of ${needed}`]
  const steps = cut.map((step) => step.id)
  const save = (now: RecorderModel) => applyFacts(recording(now), { type: 'dayCut', minutes, steps })
  const title = `to fit into ${minutes} min`
  return ask({ ...model, draft: '' }, { title, lines }, saveOrCancel(save, false))
}

/** "plank: 2 sets fewer", "4 x 100 m fast: 2 repeats fewer", or "2 km easy: left out" where all of it goes. */
function linesOf(state: SessionState, cut: readonly Step[]): string[] {
  const byName = (steps: readonly Step[]) =>
    group(
      steps.filter(({ kind }) => kind !== 'recovery'),
      (step) => (step.kind === 'set' ? step.name : stepName(state, step)),
    )
  const whole = byName(state.steps)
  return [...byName(cut)].map(([name, steps]) => {
    const [first] = steps
    const noun = first?.kind === 'interval' ? (first.split ? 'split' : 'repeat') : 'set'
    const isWhole = steps.length === whole.get(name)?.length
    return `${name}: ${isWhole ? 'left out' : `${counted(steps.length, noun)} fewer`}`
  })
}
