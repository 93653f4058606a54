/**
 * Where scratches and leaks may come together: the holder that a roll was exposed or scanned in. And a repair keeps
 * the words of its date as they were typed.
 */
export const HOLDERS_SQL = `
ALTER TABLE roll ADD COLUMN holder TEXT;
ALTER TABLE camera_service ADD COLUMN done_typed TEXT;
`;
