using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>What the fakes of decisions were asked, and how often they still have to fail.</summary>
internal sealed class DecisionLog
{
    /// <summary>Calls still to fail.</summary>
    public int CallsToFail { get; set; }

    /// <summary>What failing calls say.</summary>
    public StatusCode Fault { get; set; } = StatusCode.Unavailable;

    /// <summary>Whether a stream fails after its first answer.</summary>
    public bool BreaksStreams { get; set; }

    /// <summary>Requests, in the order in which they came.</summary>
    public List<IMessage> Requests { get; } = [];

    /// <summary>Takes a request, or fails.</summary>
    public void Take(IMessage request)
    {
        Requests.Add(request);
        if (CallsToFail-- > 0)
        {
            throw new RpcException(new Status(Fault, "told to fail"));
        }
    }

    /// <summary>Sends two answers, or one and a fault.</summary>
    public async Task SendAsync<T>(IServerStreamWriter<T> stream, T first, T second)
    {
        await stream.WriteAsync(first);
        if (BreaksStreams)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "gone"));
        }
        await stream.WriteAsync(second);
    }
}
