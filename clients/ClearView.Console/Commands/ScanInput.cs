using ClearView.Client.Files;
using ClearView.Console.Rendering;

namespace ClearView.Console.Commands;

/// <summary>Reads all scan files that a command names, and tells every fault at once.</summary>
/// <param name="Specimens">The specimens of the files that could be read.</param>
/// <param name="FaultyFiles">How many files could not be read.</param>
internal sealed record ScanInput(IReadOnlyList<ScannedSpecimen> Specimens, int FaultyFiles)
{
    /// <summary>Reads them.</summary>
    public static ScanInput Read(Screen screen, IEnumerable<string> paths, ScanFileOptions options)
    {
        var specimens = new List<ScannedSpecimen>();
        var faults = 0;
        var keysAreMissing = false;
        foreach (var path in paths)
        {
            foreach (var file in Find(path))
            {
                try
                {
                    specimens.AddRange(ScanFileReader.Read(file, options));
                }
                catch (ScanFileException e)
                {
                    screen.Error(e.Message);
                    keysAreMissing |= e.MissingKeys.Length > 0;
                    faults++;
                }
            }
        }
        foreach (var (file, note) in specimens.SelectMany(specimen => specimen.Notes.Select(note => (specimen.FilePath, note))).Distinct())
        {
            screen.Note($"{file}: {note}");
        }
        if (keysAreMissing)
        {
            screen.Hint("--set KEY=VALUE gives a value to every file that has none, for example --set instrument=\"lab sphere\"");
        }
        return new ScanInput(specimens, faults);

        IEnumerable<string> Find(string path)
        {
            try
            {
                return ScanFolder.Find(path);
            }
            catch (ScanFileException e)
            {
                screen.Error(e.Message);
                faults++;
                return [];
            }
        }
    }
}
