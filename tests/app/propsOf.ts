import type { ReactElement, ReactNode } from 'react'

/** What a screen of this kind was given; throws if another one is shown. */
export function propsOf<Props>(
  screen: (props: Props) => ReactNode,
  shown: ReactElement | null | undefined,
): Props {
  if (shown?.type !== screen) throw new Error(`${shown?.type} is shown`)
  return shown.props as Props
}
