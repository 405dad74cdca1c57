/** A line a row: what, beside what, both medians, the median ratio with its quartiles, what was aimed at. */
exports.printTable = function printTable(results) {
  const head = ['measured', 'held against', 'ms', 'ms', 'ratio', 'quartiles', 'target', '']
  const lines = results.map((row) =>
    row.why
      ? [row.name, row.against, '', '', '', '', '', `not measured: ${row.why}`]
      : [
          row.name,
          row.against,
          row.oursMedian.toFixed(1),
          row.againstMedian.toFixed(1),
          row.ratio.toFixed(2),
          `${row.low.toFixed(2)}-${row.high.toFixed(2)}`,
          row.target === null ? '' : `<= ${row.target.toFixed(2)}`,
          row.target === null ? '' : row.ratio <= row.target ? 'met' : 'missed',
        ],
  )
  const all = [head, ...lines]
  const widths = head.map((_, column) => Math.max(...all.map((line) => line[column].length)))
  return all
    .map((line) =>
      line
        .map((cell, column) =>
          column < 2 || column === 7 ? cell.padEnd(widths[column]) : cell.padStart(widths[column]),
        )
        .join('  ')
        .trimEnd(),
    )
    .map((line) => `${line}\n`)
    .join('')
}
