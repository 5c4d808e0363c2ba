#pragma once

#include "base/result.h"

// What every question and order to the service ends with, by its short name.
namespace mitefall::service {

using base::Error;
using base::ErrorKind;
using base::fail;
using base::Result;

}  // namespace mitefall::service
