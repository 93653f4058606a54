import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import type { Frame, PencilMark, Roll } from '../../shared/api/methods/film-methods.ts';
import { describeFrame, drawnFrame, quarterTurn } from '../film/drawn-frame.ts';
import { isWriting } from '../state/is-writing.ts';
import { Button } from '../ui/button.tsx';
import { Dialog } from '../ui/dialog.tsx';
import { Keys } from '../ui/keys.tsx';
import { AdjustPanel } from './adjust-panel.tsx';
import { cropByKey, FIRST_CROP, type Held } from './crop-geometry.ts';
import { DoneLine, type Done } from './done-line.tsx';
import { FrameFacts } from './frame-facts.tsx';
import { FrameStage, heldOf } from './frame-stage.tsx';
import { MarkButtons } from './mark-buttons.tsx';
import { FIRST_PLACE, placeByKey, type PlaceInScan } from './pick-geometry.ts';
import { useLook } from './use-look.ts';
import { isMarked, markOfKey, type Crop, type Marking } from './use-marks.ts';
import { useTurning } from './use-turning.ts';
import { useWindowSize } from './use-window-size.ts';
import { VersionList } from './version-list.tsx';
import { WritePictures } from './write-pictures.tsx';
import './frame-large.css';

export interface FrameLargeProps {
  readonly roll: Roll;
  readonly frame: Frame;
  readonly frames: readonly Frame[];
  readonly marking: Marking;
  /** Begins with drawing crop lines. */
  readonly cropping: boolean;
  readonly done: Done | null;
  readonly onDone: (done: Done | null) => void;
  readonly onGo: (id: number) => void;
  readonly onClose: () => void;
}

/** Around the picture: the desk's margin, the facts beside it, title and buttons above and below, px. */
const AROUND = { widthPx: 96 + 320, heightPx: 250 } as const;
const LEAST_PX = 240;

/** One frame, large: its versions, what is known of its scan, the pencil, turning; neighbours by arrow keys. */
export function FrameLarge(props: FrameLargeProps) {
  const { roll, frame, frames, marking, done, onDone, onGo, onClose } = props;
  const stage = useRef<HTMLDivElement>(null);
  const size = useWindowSize();
  const [versionId, setVersionId] = useState<number | null>(null);
  const [crop, setCrop] = useState<Crop | null>(() => (props.cropping ? cropOf(frame) : null));
  const version =
    frame.versions.find(({ frameScanId }) => frameScanId === versionId) ??
    frame.versions.find(({ state }) => state !== 'refused') ??
    frame.versions[0] ??
    null;
  const held: Held = heldOf(frame, version, roll.filmFormat);
  const [writing, setWriting] = useState(false);
  const [adjusting, setAdjusting] = useState(false);
  const [picking, setPicking] = useState<PlaceInScan | null>(null);
  const looking = useLook(frame.id, adjusting);
  // A look is of the scan that the frame is shown by; another version of it is shown as it is.
  const isShown =
    adjusting &&
    looking.scan !== null &&
    version !== null &&
    version.pictureId.startsWith(looking.look?.scanned ?? ' ');
  const turning = useTurning(onDone);
  const at = frames.findIndex(({ id }) => id === frame.id);
  useEffect(() => stage.current?.focus(), []);

  function go(way: 1 | -1): void {
    const next = frames[at + way];
    if (!next) return;
    setVersionId(null);
    setCrop(null);
    setPicking(null);
    onGo(next.id);
  }
  function mark(kind: PencilMark['kind']): void {
    if (kind !== 'crop') return void marking.toggle([frame], kind);
    if (crop !== null) return setCrop(null);
    if (isMarked([frame], 'crop')) void marking.crop([frame], null);
    else setCrop(cropOf(frame));
  }
  async function keepCrop(): Promise<void> {
    if (crop === null) return;
    await marking.crop([frame], crop);
    setCrop(null);
  }
  function pressWhileCropping(event: KeyboardEvent): boolean {
    if (crop === null) return false;
    const moved = cropByKey(crop, event.key, event.shiftKey, held);
    if (moved) setCrop(moved);
    else if (event.key === 'Enter' && !(event.target instanceof HTMLButtonElement)) void keepCrop();
    else if (event.key === 'Escape') setCrop(null);
    else return false;
    return true;
  }
  function pick(place: PlaceInScan, pressed: boolean): void {
    setPicking(place);
    if (pressed) looking.pick(place.x, place.y);
  }
  function pressWhilePicking(event: KeyboardEvent): boolean {
    if (picking === null || version === null) return false;
    const shown = {
      turned: quarterTurn(frame.turned + version.turned),
      mirrored: frame.mirrored !== version.mirrored,
    };
    const moved = placeByKey(picking, event.key, event.shiftKey, shown);
    if (moved) setPicking(moved);
    else if (event.key === 'Enter' && !(event.target instanceof HTMLButtonElement)) pick(picking, true);
    else if (event.key === 'Escape') setPicking(null);
    else return false;
    return true;
  }
  function openAdjust(open: boolean): void {
    setAdjusting(open);
    setPicking(null);
    if (!open) looking.leave();
  }
  function press(event: KeyboardEvent): void {
    if (event.ctrlKey || event.metaKey || event.altKey || isWriting(event.target)) return;
    // Scales and choices use the arrows themselves.
    if (event.target instanceof HTMLInputElement) return;
    const drawn = markOfKey(event.key);
    if (pressWhileCropping(event) || pressWhilePicking(event)) {
      event.preventDefault();
      return;
    }
    if (event.key === 'ArrowLeft') go(-1);
    else if (event.key === 'ArrowRight') go(1);
    else if (drawn) mark(drawn.kind);
    else if (event.key.toLowerCase() === 't') turning.turn([frame], event.shiftKey ? 270 : 90);
    else if (event.key.toLowerCase() === 'm') turning.mirror([frame]);
    else if (event.key.toLowerCase() === 'a') openAdjust(!adjusting);
    else if (event.key.toLowerCase() === 'g' && isShown) setPicking(picking === null ? FIRST_PLACE : null);
    else return;
    event.preventDefault();
  }

  const room = {
    widthPx: Math.max(LEAST_PX, size.widthPx < 900 ? size.widthPx - 96 : size.widthPx - AROUND.widthPx),
    heightPx: Math.max(LEAST_PX, size.heightPx - AROUND.heightPx),
  };
  return (
    <Dialog
      title={
        frame.caption === null
          ? `Frame ${frame.label} of ${roll.number}`
          : `Frame ${frame.label}, ${frame.caption}`
      }
      onClose={onClose}
      actions={
        <>
          <Button onPress={() => go(-1)} keys="←" {...(at <= 0 ? { unavailable: '' } : {})}>
            Frame before
          </Button>
          <Button onPress={() => go(1)} keys="→" {...(at >= frames.length - 1 ? { unavailable: '' } : {})}>
            Next frame
          </Button>
          <Button onPress={() => turning.turn([frame], 90)} keys="T" busy={turning.pending}>
            Turn
          </Button>
          <Button
            onPress={() => turning.mirror([frame])}
            keys="M"
            pressed={frame.mirrored}
            busy={turning.pending}
          >
            Mirror
          </Button>
          <Button onPress={() => openAdjust(!adjusting)} keys="A" pressed={adjusting}>
            Adjust
          </Button>
          <Button onPress={() => setWriting(true)}>Write picture…</Button>
          <DoneLine done={done} onUndone={() => onDone(null)} />
          <span className="frame-large-end">
            <Button look="quiet" onPress={onClose} keys="Esc">
              Back to the roll
            </Button>
          </span>
        </>
      }
    >
      {/* Keys of the whole view; what is in it takes the focus. */}
      {/* oxlint-disable-next-line jsx-a11y/no-static-element-interactions */}
      <div className="frame-large" onKeyDown={press}>
        <div
          ref={stage}
          className="frame-large-stage"
          role="img"
          aria-label={describeFrame(drawnFrame(frame, roll.filmFormat))}
          // It takes the keys of the view.
          // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
          tabIndex={0}
          style={{ minHeight: room.heightPx }}
        >
          <FrameStage
            frame={frame}
            version={version}
            filmFormat={roll.filmFormat}
            room={room}
            crop={crop}
            onCrop={setCrop}
            canvas={isShown ? looking.setCanvas : undefined}
            onPick={isShown && picking !== null ? pick : undefined}
          />
        </div>
        <div className="frame-large-side">
          <MarkButtons frames={[frame]} onMark={mark} busy={marking.pending} />
          {crop === null ? null : <CropWords onKeep={() => void keepCrop()} onLeave={() => setCrop(null)} />}
          {adjusting ? (
            <AdjustPanel
              key={frame.id}
              frame={frame}
              rollNumber={roll.number}
              looking={looking}
              picking={picking}
              onPicking={setPicking}
              onDone={onDone}
              onClose={() => openAdjust(false)}
            />
          ) : null}
          <VersionList
            frame={frame}
            shown={version?.frameScanId ?? null}
            onShow={setVersionId}
            onDone={onDone}
          />
          <FrameFacts frame={frame} />
        </div>
      </div>
      {writing ? (
        <WritePictures frames={[frame]} rollNumber={roll.number} onClose={() => setWriting(false)} />
      ) : null}
    </Dialog>
  );
}

function CropWords({ onKeep, onLeave }: { readonly onKeep: () => void; readonly onLeave: () => void }) {
  return (
    <div className="crop-words" role="group" aria-label="Crop lines">
      <p>
        Draw with the mouse. Arrows move the lines, <Keys keys="Shift" /> with an arrow makes them wider or
        narrower.
      </p>
      <div>
        <Button look="main" onPress={onKeep} keys="Enter">
          Draw the lines
        </Button>{' '}
        <Button look="quiet" onPress={onLeave} keys="Esc">
          Leave
        </Button>
      </div>
    </div>
  );
}

function cropOf(frame: Frame): Crop {
  const drawn = frame.marks.find(({ kind }) => kind === 'crop');
  if (!drawn || drawn.x === null || drawn.y === null || drawn.width === null || drawn.height === null) {
    return FIRST_CROP;
  }
  return { x: drawn.x, y: drawn.y, width: drawn.width, height: drawn.height };
}
