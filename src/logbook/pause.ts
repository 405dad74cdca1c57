/** Holds the process up for so many milliseconds, where nothing can go on before what is waited for. */
export function pause(milliseconds: number): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, milliseconds)
}
