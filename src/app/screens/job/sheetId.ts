/** Paper of the job, for whoever goes straight to it. */
export const SHEET_ID = 'job';
