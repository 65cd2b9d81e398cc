/** How changes to a plan are written, for the help of commands that take them. */
export const changesHelp = `
Changes: insulator NAME [STATE], end insulator NAME [STATE], insulators STATE,
wire NAME, post NAME, spacing LENGTH, strands +1, growth NAME, spray, rods +2,
rods 5, energizer CLASS, mend. All but rods and energizer take "on RUN".
States: new, aged, fouled, cracked, salt.`;
