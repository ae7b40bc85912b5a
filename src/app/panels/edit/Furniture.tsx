/** Furniture, one piece at a time. */
import { useState } from 'react';
import type { FurnitureSpec, Setup } from '../../../engine/types.ts';
import { editWords, furnitureName } from '../../../report/text/edit.ts';
import { moveFurniture } from '../../state/editActs.ts';
import { Pick } from '../ui.tsx';
import { Moves } from './Moves.tsx';

/** Things with a name and a number of their kind. */
function numbered(furniture: readonly FurnitureSpec[]): { value: string; text: string }[] {
  const counts = new Map<string, number>();
  return furniture.map((piece) => {
    const count = (counts.get(piece.kind) ?? 0) + 1;
    counts.set(piece.kind, count);
    return { value: piece.id, text: editWords.numbered(furnitureName[piece.kind], count) };
  });
}

export function Furniture({ setup }: { setup: Setup }) {
  const [id, setId] = useState('');
  const options = numbered(setup.furniture);
  const piece = setup.furniture.find((f) => f.id === id) ?? setup.furniture[0];
  if (!piece) return null;
  const name = options.find((o) => o.value === piece.id)?.text ?? '';
  return (
    <>
      <h3>{editWords.furniture}</h3>
      <Pick label={editWords.piece} value={piece.id} options={options} pick={setId} />
      <Moves name={name} atM={piece.atM} move={(by) => moveFurniture(piece, by)} />
    </>
  );
}
