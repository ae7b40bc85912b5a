/** Words of a diagnosis on the screen. */
export const diagnoseWords = {
  complaint: 'The client says',
  minutes: (n: number): string => `${n} min spent`,
  kit: 'Kit Bag',
  instrument: 'Instrument',
  what: 'What or where',
  take: (minutes: number): string => `Take a reading (${minutes} min)`,
  taking: 'The room runs…',
  kitNote:
    'You go where the instrument needs you, up the ladder for cloth and torch. Minutes are counted; the clock runs for these two, the stopwatch and visits.',
  clips: 'What I measured',
  noClips: 'Nothing yet. A verdict needs readings that rule other causes out.',
  fits: (left: number, of: number): string => `${left} of ${of} still fit`,
  fitsBusy: 'Each cause is tried in a room of its own…',
  hintBusy: 'your readings are being weighed',
  hintShut: 'opens with a new reading that rules a cause out',
  hintOpen: (cost: number): string =>
    cost > 0 ? `costs ${cost} points of test strategy` : 'costs nothing in practice',
  causes: 'Causes',
  ruledOut: 'ruled out by your readings',
  name: 'Name this cause',
  named: (title: string): string => `Named: ${title}`,
  notNamed: 'No cause named yet.',
  repair: 'Put it right',
  repairNote: 'Nothing need be broken. What is changed in vain and left so costs points.',
  begin: 'Begin mending',
  beginNote:
    'Beginning opens settings, detector and furniture to your hand. What you read from there on proves the repair and is no evidence of the cause. This is not taken back.',
  mending: 'Mending',
  mend: { settings: 'Set-up', detector: 'Detector', room: 'Room' },
  mendNote:
    'From here on you are mending. The room is judged as you leave it, whichever way you took. Undo takes a change back.',
  mendWait: 'The room is being worked out anew …',
  stop: (thing: string): string => `Stop: ${thing}`,
  start: (thing: string): string => `Start: ${thing}`,
  fromList: 'Or an act from the list',
  thing: {
    radiator: 'radiator',
    fan: 'fan',
    curtain: 'curtain',
    warmAirOutlet: 'warm-air outlet',
    cleaningRobot: 'cleaning robot',
    dog: 'dog',
  },
  act: 'Act',
  doIt: 'Do it',
  swap: 'Replace the detector',
  prove:
    'After the last change: the complaint again, a movement seen, both buttons, one full off-delay. A pass needs the complaint and two more.',
  record: 'Advice to the client',
  recordNote: 'The rest of the record fills from your readings. The lecturer marks these words.',
  sealed: 'In this job the device keeps what it knows. What you see: lamps, people, the clock. The rest is measured.',
  caution:
    'Nothing of the mains is touched here. On site: isolate, lock off, prove dead. Practice on a screen makes nobody competent; local codes and licensed practice decide.',
  diagnosis: (named: string, truth: string): string => `You named: ${named}. The room had: ${truth}.`,
  notYet: (needed: number): string =>
    `A pass needs ${needed} points, the cause made certain by readings, no complaint left, and three proofs with the complaint among them.`,
  nothingNamed: 'nothing',
  took: (minutes: number, reference: number): string =>
    `Your tests took ${minutes} min; a short path takes ${reference} min.`,
} as const;
