import { describe, expect, it } from 'vitest';
import { sortScanDates, type DateFields } from '../../../../main/engine/scans/scan-dates.ts';

const NOTHING: DateFields = {
  exifOriginal: null,
  exifDigitized: null,
  digitizedFraction: null,
  digitizedOffset: null,
  iptcCreated: null,
  xmpPhotoshopCreated: null,
  xmpOriginal: null,
  xmpDigitized: null,
  xmpCreate: null,
  fileSource: null,
};
const TODAY = '2026-01-01';
const SCAN = '2019:11:02 21:04:05';

// Source of the rules: Adobe XMP EXIF namespace (Original is exposure, Digitized is scanning), IPTC Photo Metadata
// Standard (Date Created belongs to the content); Exif FileSource 1 and 2 scanners, 3 digital camera.
describe('capture and scan dates', () => {
  it('are two facts', () => {
    const dates = sortScanDates(
      { ...NOTHING, exifOriginal: '1998:07:12 10:00:00', exifDigitized: SCAN },
      TODAY,
    );
    expect(dates).toEqual({
      captured: '1998-07-12',
      capturedRaw: '1998:07:12 10:00:00',
      scanned: '2019-11-02T21:04:05',
      scannedRaw: SCAN,
      remarks: [],
    });
  });

  it.each([1, 2, 3])('are one where device %i gives its own time twice', (fileSource) => {
    const dates = sortScanDates({ ...NOTHING, exifOriginal: SCAN, exifDigitized: SCAN, fileSource }, TODAY);
    expect(dates).toMatchObject({ captured: null, capturedRaw: SCAN, scanned: '2019-11-02T21:04:05' });
  });

  it('take a lone time of a scanner as the scan date', () => {
    const dates = sortScanDates({ ...NOTHING, exifOriginal: SCAN, fileSource: 1 }, TODAY);
    expect(dates).toMatchObject({ captured: null, scanned: '2019-11-02T21:04:05' });
  });

  it('believe a capture date that someone wrote into a scanner file', () => {
    const fields = { ...NOTHING, exifOriginal: '1998:07:12 00:00:00', exifDigitized: SCAN, fileSource: 1 };
    expect(sortScanDates(fields, TODAY).captured).toBe('1998-07-12');
  });

  it('remark where both are equal and no device is named', () => {
    const dates = sortScanDates({ ...NOTHING, exifOriginal: SCAN, exifDigitized: SCAN }, TODAY);
    expect(dates.remarks).toEqual(['capture_may_be_scan_date']);
  });

  it('take the date of the content from IPTC or XMP, as vague as it is', () => {
    expect(sortScanDates({ ...NOTHING, iptcCreated: '19980700', exifDigitized: SCAN }, TODAY).captured).toBe(
      '1998-07',
    );
    expect(sortScanDates({ ...NOTHING, xmpPhotoshopCreated: '1998' }, TODAY).captured).toBe('1998');
  });

  it('keep fraction and offset of the scan', () => {
    const fields = { ...NOTHING, exifDigitized: SCAN, digitizedFraction: '987', digitizedOffset: '+09:00' };
    expect(sortScanDates(fields, TODAY).scanned).toBe('2019-11-02T21:04:05.987+09:00');
  });

  it('keep what stands there when it is no date', () => {
    const dates = sortScanDates({ ...NOTHING, exifOriginal: 'unknown date' }, TODAY);
    expect(dates).toMatchObject({ captured: null, capturedRaw: 'unknown date' });
  });

  it('remark on a date in the future or before scanners', () => {
    const scanned = (text: string) => sortScanDates({ ...NOTHING, exifDigitized: text }, TODAY).remarks;
    expect(scanned('2099:01:01 00:00:00')).toEqual(['scan_date_implausible']);
    expect(scanned('1980:01:01 00:00:00')).toEqual(['scan_date_implausible']);
    expect(scanned('2026:01:01 08:00:00')).toEqual([]);
    expect(sortScanDates({ ...NOTHING, xmpPhotoshopCreated: '2031-05' }, TODAY).remarks).toEqual([
      'capture_date_implausible',
    ]);
  });
});
