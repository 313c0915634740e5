/** The tables of a shop as the queries see them. Rows are only ever added; of devices alone, some fields change. */
export type Tables = {
  setting: SettingRow;
  trial: TrialRow;
  observation: ObservationRow;
  photo: PhotoRow;
  measurement: MeasurementRow;
  reading: ReadingRow;
  device: DeviceRow;
};

/** A setting once made stays; the newest of a name counts. `position` counts up from 1. */
export type SettingRow = { position: number; name: string; value: string; recorded_at: string };

export type TrialRow = { id: string; name: string; created_at: string };

/** `position` counts a trial's observations from 1 in the order they came in; `body` is JSON. */
export type ObservationRow = {
  id: string;
  trial: string;
  position: number;
  recorded_at: string;
  by: string;
  corrects: string | null;
  why: string | null;
  kind: string;
  body: string;
  /** Null: from the shop's own machine. */
  device: string | null;
  /** As JSON. Null: it did not wait anywhere. */
  written: string | null;
};

export type PhotoRow = {
  hash: string;
  media_type: string;
  bytes: number;
  width_px: number;
  height_px: number;
  taken_at: string | null;
  added_at: string;
};

/** `body` is the whole measurement as JSON. */
export type MeasurementRow = { id: string; photo: string; measured_at: string; body: string };

/** `at` is UTC, so that text sorts as time. */
export type ReadingRow = { site: string; at: string; temp_c: number; rh_percent: number };

/** `token_sha256` is null from the moment that the device is no longer let in. */
export type DeviceRow = {
  id: string;
  name: string;
  role: string;
  site: string | null;
  way: string;
  token_sha256: string | null;
  paired_at: string;
  last_seen_at: string | null;
  revoked_at: string | null;
};
