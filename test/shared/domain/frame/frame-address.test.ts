import { describe, expect, it } from 'vitest';
import { splitFrameAddress } from '../../../../shared/domain/frame/frame-address.ts';

describe('frame address', () => {
  it.each([
    [
      '2026-001/12A',
      [
        { roll: '2026-001', frame: '12A' },
        { roll: '2026-001/12A', frame: null },
      ],
    ],
    // R43: here the slash belongs to the roll; A07 is no frame label, so the part is not split off.
    ['C-123/A07', [{ roll: 'C-123/A07', frame: null }]],
    [
      'C-123/A07/12',
      [
        { roll: 'C-123/A07', frame: '12' },
        { roll: 'C-123/A07/12', frame: null },
      ],
    ],
    // Facts 12: photographers write year-roll-frame.
    [
      '2024-031-12A',
      [
        { roll: '2024-031-12A', frame: null },
        { roll: '2024-031', frame: '12A' },
      ],
    ],
    [
      'R1 00',
      [
        { roll: 'R1 00', frame: null },
        { roll: 'R1', frame: '00' },
      ],
    ],
    [
      'R1/07',
      [
        { roll: 'R1', frame: '7' },
        { roll: 'R1/07', frame: null },
      ],
    ],
    ['R1', [{ roll: 'R1', frame: null }]],
    ['', []],
  ])('reads %s in every way it can be meant', (text, addresses) => {
    expect(splitFrameAddress(text)).toEqual(addresses);
  });
});
