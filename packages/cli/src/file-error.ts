/** What an error of the file system means, in words. */
export function explainFileError(error: unknown): string {
  const code = (error as NodeJS.ErrnoException).code;
  const words: Readonly<Record<string, string>> = {
    ENOENT: 'there is no such file or folder',
    ENOTDIR: 'part of its path is a file, not a folder',
    EISDIR: 'it is a folder',
    EACCES: 'permission denied',
    EPERM: 'permission denied',
    EROFS: 'the disk is read-only',
    ENOSPC: 'the disk is full',
    ENAMETOOLONG: 'its name is too long',
    ELOOP: 'its symbolic links go round in a circle',
    EMFILE: 'too many files are open',
  };
  return (code && words[code]) || (error instanceof Error ? error.message : String(error));
}
