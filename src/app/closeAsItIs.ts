import { momentNow, thisMachine } from '../logbook/machine.ts'
import type { Logbook } from '../logbook/model.ts'
import { whenOf } from '../session/clock.ts'
import type { SessionEvent } from '../session/model.ts'

/** Closes an unfinished session as it stands: what is not recorded is not done.
 * @throws LogbookError when it cannot be read, or another process records it */
export function closeAsItIs(logbook: Logbook, id: string): void {
  const file = logbook.open(id)
  const when = whenOf(momentNow(thisMachine()))
  const events: SessionEvent[] = [{ type: 'sessionFinished', ...when }]
  file.append(events)
  file.close()
}
