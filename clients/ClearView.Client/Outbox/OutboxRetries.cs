namespace ClearView.Client.Outbox;

/// <summary>Asks for refused readings to be sent again.</summary>
public static class OutboxRetries
{
    internal const string Extension = ".retry";

    /// <summary>Marks refused readings; the process that posts from the folder, now or the next time, sends them behind what waits.</summary>
    /// <param name="folder">The outbox.</param>
    /// <returns>How many are marked.</returns>
    public static int Request(string folder)
    {
        var layout = new OutboxLayout(Path.GetFullPath(folder));
        var refused = OutboxLayout.Find(layout.Refused, "*.json");
        foreach (var path in refused)
        {
            File.Move(path, Path.ChangeExtension(path, Extension), overwrite: true);
        }
        if (refused.Count > 0)
        {
            DurableFiles.FlushFolder(layout.Refused);
        }
        return refused.Count;
    }
}
