import { onTestFinished } from 'vitest'

/** Lets the rest of this test follow the rules of Windows. */
export function onWindows(): void {
  const platform = Object.getOwnPropertyDescriptor(process, 'platform') as PropertyDescriptor
  Object.defineProperty(process, 'platform', { ...platform, value: 'win32' })
  onTestFinished(() => void Object.defineProperty(process, 'platform', platform))
}
