/** Plans are imported as their text. */
declare module '*.yaml' {
  const text: string;
  export default text;
}
