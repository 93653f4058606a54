import { memo } from 'react';
import { previewAddress, type PreviewSize } from '../../shared/api/preview-url.ts';
import type {
  DisplayItem,
  DisplayPage,
  Face,
  ImageItem,
  LineItem,
  RectItem,
  TextItem,
} from '../../shared/sheet/display-list.ts';
import { useNaturalSize } from './use-natural-size.ts';
import './sheet-svg.css';

export interface SheetSvgProps {
  readonly page: DisplayPage;
  /** What it shows, for screen readers. */
  readonly label: string;
  /** Which previews the pictures are drawn from. */
  readonly pictures: PreviewSize;
  /** Told the key of a frame whose picture cannot be shown. */
  readonly onUnreadable?: ((frameKey: string) => void) | undefined;
}

/** One page of a sheet on the screen: the items of its display list, in their order, in millimetres. */
export const SheetSvg = memo(function SheetSvg({ page, label, pictures, onUnreadable }: SheetSvgProps) {
  return (
    <svg
      className="sheet-svg"
      role="img"
      aria-label={label}
      viewBox={`0 0 ${page.widthMm} ${page.heightMm}`}
      preserveAspectRatio="none"
    >
      {page.items.map((item, index) => (
        // Items are painted in their order and have no other name than their place in it.
        // oxlint-disable-next-line react/no-array-index-key
        <Item key={index} item={item} pictures={pictures} onUnreadable={onUnreadable} />
      ))}
    </svg>
  );
});

interface ItemProps {
  readonly item: DisplayItem;
  readonly pictures: PreviewSize;
  readonly onUnreadable: ((frameKey: string) => void) | undefined;
}

function Item({ item, pictures, onUnreadable }: ItemProps) {
  switch (item.kind) {
    case 'rect':
      return <Rect item={item} />;
    case 'line':
      return <Line item={item} />;
    case 'text':
      return <Text item={item} />;
    case 'image':
      return <Picture item={item} size={pictures} onUnreadable={onUnreadable} />;
  }
}

function Rect({ item }: { readonly item: RectItem }) {
  const { xMm, yMm, widthMm, heightMm, radiusMm, fill } = item;
  return (
    <rect
      x={xMm}
      y={yMm}
      width={widthMm}
      height={heightMm}
      fill={fill}
      {...(radiusMm > 0 ? { rx: radiusMm } : {})}
    />
  );
}

function Line({ item }: { readonly item: LineItem }) {
  const shape = {
    points: item.points.map(([x, y]) => `${x},${y}`).join(' '),
    fill: 'none',
    stroke: item.colour,
    strokeWidth: item.widthMm,
    strokeLinecap: item.cap,
    strokeLinejoin: 'round',
  } as const;
  return item.closed ? <polygon {...shape} /> : <polyline {...shape} />;
}

const WEIGHTS: Readonly<Record<Face, number>> = {
  sans: 400,
  'sans-bold': 600,
  japanese: 400,
  chinese: 400,
  korean: 400,
};

function Text({ item }: { readonly item: TextItem }) {
  const { xMm, yMm, sizeMm, turned, colour, runs } = item;
  return (
    <g fill={colour} transform={turned === 0 ? undefined : `rotate(${turned} ${xMm} ${yMm})`}>
      {runs.map((run, index) => (
        <text
          // Runs of a line are only their place in it.
          // oxlint-disable-next-line react/no-array-index-key
          key={index}
          x={xMm + runs.slice(0, index).reduce((sum, before) => sum + before.widthMm, 0)}
          y={yMm}
          fontSize={sizeMm}
          fontWeight={WEIGHTS[run.face]}
          textLength={run.widthMm}
          lengthAdjust="spacingAndGlyphs"
        >
          {run.text}
        </text>
      ))}
    </g>
  );
}

interface PictureProps {
  readonly item: ImageItem;
  readonly size: PreviewSize;
  readonly onUnreadable: ((frameKey: string) => void) | undefined;
}

function Picture({ item, size, onUnreadable }: PictureProps) {
  const { xMm, yMm, widthMm, heightMm, turned, mirrored, region } = item;
  const lying = turned === 90 || turned === 270;
  const place = lying ? { width: heightMm, height: widthMm } : { width: widthMm, height: heightMm };
  const whole = region.x === 0 && region.y === 0 && region.width === 1 && region.height === 1;
  const address = previewAddress(item.pictureId, size);
  const moves = [
    `translate(${xMm + widthMm / 2} ${yMm + heightMm / 2})`,
    ...(turned === 0 ? [] : [`rotate(${turned})`]),
    ...(mirrored ? ['scale(-1 1)'] : []),
  ];
  const fail = () => onUnreadable?.(item.frameKey);
  return (
    <g data-frame={item.frameKey}>
      <rect x={xMm} y={yMm} width={widthMm} height={heightMm} fill={item.ground} />
      <g transform={moves.join(' ')}>
        {whole ? (
          <image
            href={address}
            x={-place.width / 2}
            y={-place.height / 2}
            width={place.width}
            height={place.height}
            preserveAspectRatio="xMidYMid meet"
            onError={fail}
          />
        ) : (
          <PicturePart address={address} region={region} place={place} onError={fail} />
        )}
      </g>
    </g>
  );
}

interface PicturePartProps {
  readonly address: string;
  readonly region: ImageItem['region'];
  readonly place: { readonly width: number; readonly height: number };
  readonly onError: () => void;
}

/** A part of a picture, whole in the middle of its place. How long it is across only the picture itself can tell. */
function PicturePart({ address, region, place, onError }: PicturePartProps) {
  const size = useNaturalSize(address);
  if (size === null) {
    // Loads it, and tells when it cannot be.
    return <image href={address} width={0} height={0} onError={onError} />;
  }
  const part = { width: size.width * region.width, height: size.height * region.height };
  const scale = Math.min(place.width / part.width, place.height / part.height);
  const [width, height] = [part.width * scale, part.height * scale];
  return (
    <svg
      x={-width / 2}
      y={-height / 2}
      width={width}
      height={height}
      viewBox={`${region.x * size.width} ${region.y * size.height} ${part.width} ${part.height}`}
      preserveAspectRatio="none"
    >
      <image href={address} width={size.width} height={size.height} preserveAspectRatio="none" />
    </svg>
  );
}
