using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Says how a stored reading was made, what it corrects, and whether it still stands.</summary>
internal static class MakingText
{
    /// <summary>Rows for one reading.</summary>
    public static IEnumerable<(string Label, string Text)> Rows(Reading reading)
    {
        if (Posted(reading.Origin) is { Length: > 0 } posted)
        {
            yield return ("Posted", posted);
        }
        if (State(reading.Origin?.Posted?.InstrumentState) is { Length: > 0 } state)
        {
            yield return ("Instrument state", state);
        }
        if (reading.Picture is { } picture)
        {
            var format = picture.Format == PictureFormat.Png ? "PNG" : "JPEG";
            yield return ("Picture", $"{format}, {NumberText.Plain(picture.WidthPx)} x {NumberText.Plain(picture.HeightPx)} pixels, {NumberText.Plain(picture.ByteCount)} bytes");
        }
        if (reading.Corrects is { } correction)
        {
            yield return ("Corrects", $"{correction.ReadingId}: {correction.Reason} ({correction.Person})");
        }
        if (reading.SupersededBy.Length > 0)
        {
            yield return ("Superseded by", reading.SupersededBy);
        }
    }

    private static string Posted(RecordedOrigin? origin)
    {
        if (origin is null)
        {
            return "";
        }
        var posted = origin.Posted ?? new Origin();
        return string.Join(' ', new[]
        {
            posted.Person.Length > 0 ? "by " + posted.Person : "",
            posted.Station.Length > 0 ? "at " + posted.Station : "",
            posted.ClientSoftware.Length > 0 ? "with " + posted.ClientSoftware : "",
            origin.KeyName.Length > 0 ? "under the key " + origin.KeyName : "",
            origin.Peer.Length > 0 ? "from " + origin.Peer : "",
        }.Where(part => part.Length > 0));
    }

    private static string State(InstrumentState? state)
    {
        if (state is null)
        {
            return "";
        }
        List<string> parts = [];
        if (state.CalibratedAt is { } calibrated)
        {
            parts.Add("calibrated " + SpecimenDetail.Time(calibrated));
        }
        if (state.CheckStandard.Length > 0 || state.CheckedAt is not null || state.CheckResult != CheckResult.Unspecified)
        {
            var result = state.CheckResult switch
            {
                CheckResult.WithinLimits => " within limits",
                CheckResult.OutsideLimits => " outside limits",
                _ => "",
            };
            parts.Add("check standard" + (state.CheckStandard.Length > 0 ? $" {state.CheckStandard}" : "") + result
                + (state.CheckedAt is { } at ? $" {SpecimenDetail.Time(at)}" : ""));
        }
        if (state.HasLampHours)
        {
            parts.Add($"lamp {NumberText.Plain(state.LampHours)} h");
        }
        if (state.HasInternalTemperatureC)
        {
            parts.Add($"{NumberText.Plain(state.InternalTemperatureC)} °C inside");
        }
        if (state.Remarks.Length > 0)
        {
            parts.Add(state.Remarks);
        }
        return string.Join(", ", parts);
    }
}
