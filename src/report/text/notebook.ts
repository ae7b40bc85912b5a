/** Words of the case notebook. */
export const notebookWords = {
  title: 'Case notebook',
  open: 'Case notebook',
  intro: 'Every case that was passed in this browser becomes a card. Nothing leaves this machine.',
  empty: 'No card yet. Hand in a job: once it is passed, its card stands here.',
  cards: (n: number): string => (n === 1 ? '1 card' : `${n} cards`),
  room: (seed: number): string => `room ${seed}`,
  total: (points: number): string => `${Math.round(points)} of 100`,
  print: 'Print',
  save: 'Save as text',
  close: 'Close',
  remove: (title: string): string => `Delete the card ${title}`,
  removeShort: 'Delete',
  kept: 'Its card stands in the case notebook.',
  notKept: 'This browser does not keep the card of this case; save the attempt as a file.',
  noJob: (id: string): string => `The job ${id} is not in this browser any more; open its file to read this card.`,
  heads: {
    complaint: 'Complaint',
    measured: 'What I measured',
    cause: 'Cause',
    proof: 'Proof',
    given: 'What was given',
    did: 'What the room did',
    why: 'Why',
  },
  offDelays: (inner: string, window: string, air: string): string =>
    `Off-delays: inner row ${inner}, window row ${window}, air contact ${air}`,
} as const;
