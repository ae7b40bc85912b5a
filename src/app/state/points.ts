/** A point of a design chosen where it is drawn. What keeps the choice is loaded with the job. */
export async function choosePoint(point: string): Promise<void> {
  const { choose } = await import('./job/commission.ts');
  choose({ point });
}
