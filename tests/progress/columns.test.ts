import { expect, test } from 'vitest'
import { columnLines } from '../../src/progress/chart.ts'

test('a table stands in columns as wide as their widest cell, names to the left and figures to the right', () => {
  const rows = [
    ['2026-W47', '388', '2656'],
    ['W48', '', ''],
  ]
  expect(columnLines(['week', 'Mon', 'sum'], rows)).toEqual([
    'week      Mon   sum',
    '2026-W47  388  2656',
    'W48',
  ])
  expect(columnLines(['week', 'sum'], [])).toEqual(['week  sum'])
})
