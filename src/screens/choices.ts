/** What can be taken up or begun when the app opens. */
export type Choice =
  /** A session that is not finished: `title` says when it was left and where. */
  | { kind: 'unfinished'; id: string; title: string; detail: string; recordedBy: string | null }
  /** A day that lies ready. */
  | { kind: 'day'; path: string; title: string; detail: string; sample: boolean }

/** What the app can do besides recording, given to the screens from above. */
export interface AppActions {
  choices(): Choice[]
  /** What can be said without reading every day: the unfinished sessions where there are any, else all. */
  firstChoices(): Choice[]
  /** Opens it in the recorder; a message where that cannot be done. */
  open(choice: Choice): { message: string } | { message: null }
  /** What of the logbook is damaged, as far as it was met; null when all is sound. */
  damage(): string | null
  /** Which kind of day is due by the rotation that is set; null without one. */
  due(): string | null
  /** Sounds the long signal. */
  ring(): void
  /** Closes an unfinished session as it stands; a message where that cannot be done. */
  closeAsItIs(id: string): string | null
  /** Throws an unfinished session away; a message where that cannot be done. */
  throwAway(id: string): string | null
  /** Shows the sessions there are; a message where there is none. */
  history(): string | null
  /** Shows how everything has gone over the weeks; a message where there is no session. */
  progress(): string | null
  leave(): void
}
