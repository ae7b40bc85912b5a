/** The page "About this model": what is worked out, what is left out, and the caution. */
export interface AboutSection {
  title: string;
  paragraphs?: readonly string[];
  points?: readonly string[];
}

export const aboutSections: readonly AboutSection[] = [
  {
    title: 'Caution',
    paragraphs: [
      'Mains voltage kills. Practice on a screen makes nobody competent to work on it: local codes and licensed practice decide who may open a box, and how. Prove dead before you touch, with your own tester, on the real thing.',
    ],
  },
  {
    title: 'What is worked out',
    points: [
      'People as warm bodies that walk, sit, type and reach; what each facet of the lens sees of them; the signal of the sensing elements with its noise; pulses when it passes a threshold.',
      'The true place of the sun for place, date and time; clear, hazy, cloudy and overcast skies; light through glass; lamps; and light thrown from surface to surface.',
      'Two directional photometers at the ceiling. They read the ceiling, not the desk: the desk factor joins the two.',
      'The controller in steps of 0.1 s: delays, setpoints, dwells, buttons, modes, warm-up, walk-test.',
      'Every number on screen comes from these models. The same story with the same acts gives the same run on every machine.',
    ],
  },
  {
    title: 'How near the light comes',
    paragraphs: [
      'Every surface here is matt. Measured against an exact solution of this same matt room, lamps come within 3 %, an overcast sky within 3 %, a clear sky within 5 %, and what the sun sends round the room within 6 %. That says how well the sum is done, not what weather brings: skies are typical ones, and a real sky of the same name may be half or twice as bright. Glare, shiny surfaces and colour are not worked out.',
      'The year is 36 such typical days, weighed. It is neither a forecast nor a promise.',
    ],
  },
  {
    title: 'What is left out',
    points: [
      'Bodies cast no shadow and reflect no light, but for somebody on the ladder, who shades the photometers. Doors have two states of light, open and closed; the lens takes the wall round them for a sheet, so it sees a little more of the corridor than through a thick one.',
      'People who sit or stand still are rigid; swaying is an act of its own.',
      'Air movement is reduced to warm things at fixed places. Slats of blinds are a share of light, not single slats.',
      'The detector weighs people against what the Warmth Map shows behind them: radiators, sun patches as settled, window glass as ordinary double glazing, each taken anew once a minute. Walls in the sun stay as warm as the room. A year keeps the sun of its first day behind people.',
      'Wear of contacts, ageing during the run and dimming are not modelled.',
      'The lens, the thresholds and the furniture are our own inventions of a plausible size, not those of any product. Ranges of a real detector stand in its data sheet and are found by a walk-test on site.',
    ],
  },
  {
    title: 'What is a teaching aid',
    points: [
      'The Reason Card, the Sight Map, the Warmth Map, the side section and the running counts are shown by no real detector. They are here to be looked at first and done without later.',
      'The detector is drawn larger than it is.',
      'Lamps in the picture never flash quicker than the eye bears; the Recorder keeps the exact edges.',
    ],
  },
  {
    title: 'What this is not',
    paragraphs: [
      'No measurement, no proof that a room meets a standard, and no promise of savings. A simulation helps to ask better questions of the real room.',
    ],
  },
];
