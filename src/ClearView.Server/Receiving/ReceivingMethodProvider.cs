using System.Reflection;

using Grpc.AspNetCore.Server.Model;
using Grpc.Core;

namespace ClearView.Server.Receiving;

/// <summary>
/// Finds the rpcs of each service in the place of the framework's own provider, which answers a message that cannot be read with UNKNOWN,
/// and writes it to the log as an error, before any interceptor sees the call.
/// </summary>
/// <typeparam name="TService">The service.</typeparam>
internal sealed class ReceivingMethodProvider<TService>(ILoggerFactory loggers) : IServiceMethodProvider<TService>
    where TService : class
{
    public void OnServiceMethodDiscovery(ServiceMethodProviderContext<TService> context)
    {
        var generated = typeof(TService).GetCustomAttribute<BindServiceMethodAttribute>(inherit: true)
            ?? throw new InvalidOperationException($"{typeof(TService)} does not derive from a generated service.");
        var bind = generated.BindType.GetMethods(BindingFlags.Public | BindingFlags.Static).Single(method =>
            method.Name == generated.BindMethodName
            && method.GetParameters() is [var binder, var service]
            && binder.ParameterType == typeof(ServiceBinderBase)
            && service.ParameterType.IsAssignableFrom(typeof(TService)));

        // Without an instance the generated code tells its rpcs alone; instances are made for each call.
        bind.Invoke(
            null,
            BindingFlags.DoNotWrapExceptions,
            binder: null,
            [new ReceivingBinder<TService>(context, loggers.CreateLogger("ClearView.Server.Receiving")), null],
            culture: null);
    }
}
