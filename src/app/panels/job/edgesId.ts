/** Id of the place where edges are set, for who jumps to it. A file of its own: the Job Card is not the strip's. */
export const EDGES_ID = 'edges';
