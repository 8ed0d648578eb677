namespace ClearView.Client.Outbox;

/// <content>Segments, room and the alarm.</content>
public sealed partial class ReadingOutbox
{
    private void RemoveFinished()
    {
        foreach (var segment in _segments.SkipLast(1).Where(segment => segment.Waiting == 0).ToList())
        {
            try
            {
                _usedBytes -= segment.Remove();
                _segments.Remove(segment);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                // Nothing in it waits; it is removed with the next one.
                return;
            }
        }
    }

    private void BeginSegment()
    {
        // An empty segment bears the number that is to come, so that a new one would take its name.
        if (_segments.Count == 0 || _segments[^1].Path != _layout.Segment(_nextSequence))
        {
            _segments.Add(OutboxSegment.Create(_layout.Segment(_nextSequence)));
        }
    }

    // Where the disk has no room for it, the next acceptance begins it; what waits is sent meanwhile.
    private void BeginSegmentOrLater()
    {
        try
        {
            BeginSegment();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            _segments.LastOrDefault()?.Close();
        }
    }

    private void MakeRoom(int bytes)
    {
        if (_segments.Count == 0)
        {
            BeginSegment();
        }
        var active = _segments[^1];
        if (active.Length > 0 && (active.IsBroken || active.Length >= _options.LargestSegmentBytes || (active.Waiting == 0 && _usedBytes + bytes > _options.LimitBytes)))
        {
            BeginSegment();
            RemoveFinished();
        }
        if (_usedBytes + bytes > _options.LimitBytes)
        {
            // Somebody may have cleared refused or damaged readings away.
            _usedBytes = _layout.Measure();
        }
        var free = _options.MeasureFreeBytes(_layout.Folder);
        CheckAlarm();
        if (_usedBytes + bytes > _options.LimitBytes)
        {
            throw new OutboxException(
                $"the outbox {_layout.Folder} is full: it holds {ByteText.Of(_usedBytes)} of at most {ByteText.Of(_options.LimitBytes)}; nothing was taken; it empties when the server takes what waits", isFull: true);
        }
        if (free - bytes < _options.LeastFreeBytes)
        {
            throw new OutboxException(
                $"the disk of the outbox {_layout.Folder} is nearly full: {ByteText.Of(free)} are free and {ByteText.Of(_options.LeastFreeBytes)} are to stay free; nothing was taken; make room on the disk", isFull: true);
        }
    }

    private void CheckAlarm()
    {
        long free;
        try
        {
            free = _options.MeasureFreeBytes(_layout.Folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            // Known the next time; what was just taken or done with stays so.
            return;
        }
        var reasons = OutboxStatus.FindAlarms(_usedBytes, _options.LimitBytes, free, _options.LeastFreeBytes);
        if (reasons.Count > 0 == _alarm)
        {
            return;
        }
        _alarm = !_alarm;
        _report(_alarm
            ? new OutboxEvent(OutboxEventKind.Alarm, string.Join("; ", reasons))
            : new OutboxEvent(OutboxEventKind.AlarmEnded, "there is room again"));
    }
}
