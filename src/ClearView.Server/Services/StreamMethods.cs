using ClearView.Contract;
using ClearView.Server.Faults;
using ClearView.V1;

namespace ClearView.Server.Services;

/// <summary>The methods that the messages of one stream choose. A stream mostly stays with one, which is then checked once.</summary>
/// <remarks>Of one stream, and not thread-safe.</remarks>
internal sealed class StreamMethods(MethodResolver methods)
{
    private MethodChoice? _last;

    /// <summary>The choice of a message. A name that is not there concerns its own message only, and does not end the stream.</summary>
    public async ValueTask<MethodChoice> ChoiceAsync(Method? method, MethodName? name, CancellationToken cancellationToken)
    {
        if (name is null)
        {
            return _last is { Name: null, Method: { } known } && known.Equals(method) ? _last : _last = MethodChoice.Given(method);
        }

        try
        {
            var found = await methods.ResolveAsync(method, name, cancellationToken).ConfigureAwait(false);
            return IsLast(found) ? _last! : _last = found;
        }
        catch (DocumentNotFoundException notFound)
        {
            return MethodChoice.Refused([new FieldViolation { Field = "method_name", Description = notFound.Message }]);
        }
    }

    private bool IsLast(MethodChoice found) =>
        _last is { Name: { } name, Method: { } method } && name.Equals(found.Name) && method.Equals(found.Method);
}
