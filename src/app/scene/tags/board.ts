/** The tags over the picture: HTML elements that the projector moves once per drawn frame. React never sees positions. */
import type { Vector3 } from '../../../engine/types.ts';
import type { Solid } from '../boxRay.ts';

export type TagId = string;

export interface Tag {
  /** Point of the room that the tag speaks about. */
  anchorM: Vector3;
  /** Point of the room near which the tag itself stands; null = beside its anchor by `offset`. */
  standM: Vector3 | null;
  /** From the projected anchor (or stand), px at a stage 1480 wide. */
  offset: [number, number];
  /** Which point of the element sits there: shares of its width and height. */
  hold: [number, number];
  /** Where the leader ends on the element, shares of its size; null = no leader. */
  leader: [number, number] | null;
  element: HTMLElement | null;
  line: SVGLineElement | null;
  dot: SVGCircleElement | null;
  hidden: boolean;
  /** Stands at whichever of these offsets covers least; empty = always at `offset`. */
  choices: readonly [number, number][];
  /** The choice taken last, -1 none yet. */
  held: number;
  /** Stands on the first of these points of the room where nothing else stands, and is left out where there is none. */
  along: readonly Vector3[] | null;
  /** Stands beside the model, never over it. */
  beside: 'left' | 'right' | null;
  /** May be left out where the stage is too small for all. */
  mayGo: boolean;
}

export interface TagBoard {
  tags: Map<TagId, Tag>;
  /** Points that no roaming tag should cover: heads over the chairs, measured places, the detector. */
  keepClearM: Vector3[];
  /** What hides lines, and so the places of tags along them. */
  solids: readonly Solid[];
  /** Asks for another drawn frame, so that a tag that moved is moved. */
  invalidate: () => void;
}

export function createTagBoard(): TagBoard {
  return { tags: new Map(), keepClearM: [], solids: [], invalidate: () => {} };
}

export function tagOf(board: TagBoard, id: TagId): Tag {
  let tag = board.tags.get(id);
  if (!tag) {
    tag = {
      anchorM: [0, 0, 0],
      standM: null,
      offset: [0, 0],
      hold: [0.5, 0.5],
      leader: null,
      element: null,
      line: null,
      dot: null,
      hidden: true,
      choices: [],
      along: null,
      held: -1,
      mayGo: false,
      beside: null,
    };
    board.tags.set(id, tag);
  }
  return tag;
}
