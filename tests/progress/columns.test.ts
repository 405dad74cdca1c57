import { expect, test } from 'vitest'
import { columnLines } from '../../src/progress/chart.ts'

test('a table has columns as wide as their widest cell, with names aligned left and figures right', () => {
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
