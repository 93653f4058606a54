// Style sheets are imported for what they do to the page; the builder gathers them.
declare module '*.css';
