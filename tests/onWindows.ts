import { onTestFinished } from 'vitest'

/** Lets the rest of this test follow the rules of Windows. */
export function onWindows(): void {
  onPlatform('win32')
}

/** Lets the rest of this test follow the rules of another system. */
export function onPlatform(name: NodeJS.Platform): void {
  const platform = Object.getOwnPropertyDescriptor(process, 'platform') as PropertyDescriptor
  Object.defineProperty(process, 'platform', { ...platform, value: name })
  onTestFinished(() => void Object.defineProperty(process, 'platform', platform))
}
