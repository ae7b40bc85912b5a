/** Words of the Kit Bag: which instruments there are. Each instrument keeps its own words in a file beside this one. */
export const kitWords = {
  region: 'Kit Bag',
  tools: { lux: 'Lux meter', view: 'Detector’s view', reach: 'Walk-test', held: 'Cloth and torch' },
  findFactor: 'Find the desk factor',
  tapToLay: (id: string): string => `Tap where lux meter ${id} should be.`,
};
