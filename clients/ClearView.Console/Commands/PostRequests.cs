using ClearView.Client;
using ClearView.Console.Options;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Makes the requests that post readings, each under the identifier of its content.</summary>
internal static class PostRequests
{
    /// <summary>Under a specification, or else under a method.</summary>
    public static PostReadingRequest Of(Measurement measurement, ChosenMethod method, SpecificationName? specification, Origin origin)
    {
        if (specification is not null)
        {
            return Of(measurement, specification, origin);
        }
        var request = new PostReadingRequest
        {
            ReadingId = ReadingId.ForContent(measurement, method.Method).ToString("D"),
            Measurement = measurement,
            Origin = origin,
        };
        if (method.StoredName is { } name)
        {
            request.MethodName = name;
        }
        else
        {
            request.Method = method.Method;
        }
        return request;
    }

    /// <summary>Under a specification.</summary>
    public static PostReadingRequest Of(Measurement measurement, SpecificationName specification, Origin origin) => new()
    {
        ReadingId = ReadingId.ForContent(measurement, specification).ToString("D"),
        Measurement = measurement,
        SpecificationName = specification,
        Origin = origin,
    };
}
