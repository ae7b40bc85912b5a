/** Words of the Split Bench: two attempts of one job beside each other, without names. */
const SIDES = ['Bench A', 'Bench B'] as const;

export const splitWords = {
  title: 'Split Bench',
  intro: 'Two attempts at the same job, one clock. Names stay hidden.',
  side: (side: 0 | 1): string => SIDES[side],
  choose: (side: 0 | 1): string => `Choose an attempt for ${SIDES[side]}`,
  chooseBoth: 'Choose or drop attempts',
  swap: 'Other attempts',
  close: 'Close',
  putOn: 'Split Bench',
  clock: 'Clock of both benches',
  run: 'Run',
  pause: 'Pause',
  actBack: 'Back to the act before',
  actOn: 'On to the next act',
  speed: 'Speed',
  working: (share: number): string => `Playing again · ${Math.round(share * 100)} %`,
  ended: 'has ended here',
  acts: (n: number): string => (n === 1 ? '1 act' : `${n} acts`),
  noAct: 'Nothing done yet.',
  actOf: (n: number, of: number, text: string): string => `${n} of ${of} · ${text}`,
  strip: (side: 0 | 1): string => `${SIDES[side]}: movement seen and the three outputs, acts as numbers`,
  plan: (side: 0 | 1): string => `${SIDES[side]}: the room from above`,
  otherJob: 'Both attempts must be of the same job; the one that stands there already is of another.',
  noRun: 'A design has no run to show beside another.',
  acted: 'Acts',
} as const;
