import type { Screen } from '../../src/app/screens.ts'

/** The shown screen, which must be of this kind; throws if another one is shown. */
export function propsOf<Kind extends Screen['kind']>(
  kind: Kind,
  shown: Screen | null | undefined,
): Extract<Screen, { kind: Kind }> {
  if (shown?.kind !== kind) throw new Error(`${shown?.kind} is shown`)
  return shown as Extract<Screen, { kind: Kind }>
}
